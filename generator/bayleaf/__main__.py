"""The command `bayleaf`, which is `python -m bayleaf` as well.

All else is imported within: that takes a moment, and Ctrl+C ends it like the rest.
"""

import sys


def main() -> None:
    """Runs the command line and ends the process with its exit code."""
    try:
        from .commands import main as run
    except KeyboardInterrupt:
        sys.stderr.write("bayleaf: interrupted\n")
        sys.exit(130)
    run()


if __name__ == "__main__":
    main()
