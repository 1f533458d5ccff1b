"""Writing a file of the author's: what stood there is kept until all of the new is written."""

import contextlib
import os
import shutil
import time
from collections.abc import Callable
from pathlib import Path

#: Virus scanners and file indexers on Windows hold a new file open for a moment (common practice: retry).
_WAITS = (0.05, 0.1, 0.2, 0.4, 0.8, 1.6)


def replace_file(path: Path, data: bytes) -> None:
    """Puts `data` in the place of a file; an OSError leaves the file as it was.

    It is written beside the file, under a name that begins with a dot, which nothing here reads, and then renamed.
    """
    path = path.resolve()  # what a link points to is replaced, not the link
    beside = path.with_name(f".{path.name}.new")
    try:
        with beside.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if path.exists():
            shutil.copymode(path, beside)
        patiently(lambda: os.replace(beside, path))
    except PermissionError as error:
        with contextlib.suppress(OSError):
            beside.unlink()
        reason = f"{error.strerror}; nothing was written; it may be open in another program, or write-protected"
        raise PermissionError(error.errno, reason, str(path)) from error
    except BaseException:
        with contextlib.suppress(OSError):
            beside.unlink()
        raise


def patiently(move: Callable[[], None], sleep: Callable[[float], None] = time.sleep) -> None:
    """Moves a file or a folder, and tries again while another program holds a file of it."""
    for wait in _WAITS:
        try:
            return move()
        except PermissionError:
            sleep(wait)
    return move()
