"""The command line. One command is one module here, named like the command; nothing lists them.

Exit codes: 0 no errors, 1 errors in the manual, 2 the call is wrong, 130 interrupted, 70 a fault of the program
itself.
"""

import contextlib
import importlib
import os
import pkgutil
import sys
import traceback
from collections.abc import Sequence

import click

from .. import __version__
from ._help import WithExamples
from .common import WrongCall, make_streams_forgiving, say

EXIT_WRONG_CALL = 2
EXIT_OUR_FAULT = 70
EXIT_INTERRUPTED = 130


class _Commands(WithExamples, click.Group):
    """The commands are the modules of this folder that hold a click command called `command`; `_` begins a helper."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        names = (found.name for found in pkgutil.iter_modules(__path__))
        return [name for name in names if name != "common" and not name.startswith("_")]

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in self.list_commands(ctx):
            return None
        return importlib.import_module(f"{__name__}.{name}").command


@click.command(
    cls=_Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Exit codes: 0 no errors, 1 errors, 2 wrong call.",
    examples=(
        ("bayleaf start my-manual", "a manual to begin with, with an invented vehicle"),
        ("bayleaf check", "what is wrong, where, why, and what to write instead"),
        ("bayleaf preview --open", "the manual in the browser, and again after every save"),
        ("bayleaf check --help", "examples of one command"),
    ),
)
@click.version_option(__version__, prog_name="bayleaf")
@click.option("--debug", is_flag=True, help="Show the traceback when the program itself fails.")
def program(debug: bool) -> None:
    """Service procedures for electrified vehicles: checked, and rendered as a manual for the bay."""


def main(arguments: Sequence[str] | None = None) -> None:
    """Runs the command line and ends the process with its exit code."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    code = run(given)
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        _let_go_of_the_pipe()
    sys.exit(code)


def run(arguments: list[str]) -> int:
    """The same, giving the exit code back."""
    make_streams_forgiving()
    try:
        result = program.main(args=arguments, prog_name="bayleaf", standalone_mode=False)
        return result if isinstance(result, int) else 0
    except click.exceptions.Exit as end:
        return end.exit_code
    except click.exceptions.NoArgsIsHelpError as error:
        say(error.format_message())
        return EXIT_WRONG_CALL
    except click.ClickException as error:
        say(f"bayleaf: {_refused(error)}", err=True)
        if isinstance(error, click.UsageError) and error.ctx is not None:
            say(f"`{error.ctx.command_path} --help` tells how it is called.", err=True)
        return EXIT_WRONG_CALL
    except WrongCall as error:
        say(f"bayleaf: {error}", err=True)
        return EXIT_WRONG_CALL
    except (KeyboardInterrupt, click.Abort):
        say("bayleaf: interrupted", err=True)
        return EXIT_INTERRUPTED
    except BrokenPipeError:
        _let_go_of_the_pipe()
        return 0
    except Exception as error:
        if "--debug" in arguments:
            traceback.print_exc()
        if isinstance(error, OSError) and error.errno is not None:  # a file that may not be read, a full disk
            say(f"bayleaf: {_trouble(error)}", err=True)
            return EXIT_WRONG_CALL
        say(
            f"bayleaf: the program itself failed ({type(error).__name__}: {error}). This is not your mistake. "
            "Run it again with --debug before the command and send what it prints with the file.",
            err=True,
        )
        return EXIT_OUR_FAULT


def _refused(error: click.ClickException) -> str:
    """What is wrong with a call; where something is missing, what it would look like with it."""
    if not isinstance(error, click.MissingParameter) or error.ctx is None or error.param is None:
        return error.format_message()
    missing = f"{error.param.human_readable_name.removesuffix('...')} is missing"
    command = error.ctx.command
    if not isinstance(command, WithExamples) or not command.examples:
        return missing
    return f"{missing}, as in `{command.examples[0][0]}`"


def _trouble(error: OSError) -> str:
    """What the system said, in a sentence."""
    reason = error.strerror or str(error)
    return f"{error.filename}: {reason}" if error.filename is not None else reason


def _let_go_of_the_pipe() -> None:
    """Whoever reads the output has seen enough; Python must not try to print the rest as it ends."""
    with contextlib.suppress(OSError, ValueError):  # where it is no stream of the system's
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
