"""Writing a file of the author's: what stood there is kept until all of the new is written."""

import contextlib
import os
import shutil
from pathlib import Path


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
        os.replace(beside, path)
    except BaseException:
        with contextlib.suppress(OSError):
            beside.unlink()
        raise
