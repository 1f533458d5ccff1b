"""How a file looks from outside, to tell whether it has to be read again."""

import os
import time
from pathlib import Path

#: A file that was written so short a time ago may be written again without a look of its own from outside.
_SETTLED = 3_000_000_000


def stamp_of(path: str | Path) -> tuple[int, ...] | None:
    """How a file looks from outside; None where that cannot be relied on, and it has to be read to know."""
    try:
        seen = os.stat(path)
    except OSError:
        return None
    if time.time_ns() - max(seen.st_mtime_ns, seen.st_ctime_ns) < _SETTLED:
        return None
    return seen.st_size, seen.st_mtime_ns, seen.st_ctime_ns, seen.st_ino
