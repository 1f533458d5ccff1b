"""The photos of one manual: each file is looked at once, and converted once, until it changes."""

import contextlib
import errno
import os
from pathlib import Path

from ..file_stamp import stamp_of
from .published import digest_in, names
from .seen import MOST_BYTES, Seen, digest_of

#: Where converted pictures are kept between runs, in the folder of the manual. It may be deleted at any time.
KEPT_IN = ".bayleaf/photos"


class Album:
    """The photos of the manual in a folder. Paths are relative to it, with `/`."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._kept_in = folder / KEPT_IN
        self._seen: dict[str, tuple[tuple[int, ...] | None, Seen]] = {}
        self._last: dict[str, bytes] = {}
        self._digests: frozenset[str] | None = None

    def seen(self, path: str) -> Seen | None:
        """What is known of a photo; None where there is no file, or the system does not hand it out."""
        file = self._folder / path
        stamp = stamp_of(file)
        before, known = self._seen.get(path, (None, None))
        if known is not None and stamp is not None and before == stamp:
            return known
        try:
            with open(file, "rb") as stream:
                data = stream.read(MOST_BYTES + 1)
        except OSError:
            self._seen.pop(path, None)
            return None
        if known is None or known.digest != digest_of(data):
            from .look import look  # late: a manual without photos does not pay for Pillow

            known = look(data, digest_of(data) in self._converted())
        self._seen[path] = stamp, known
        return known

    def file(self, path: str, name: str) -> bytes:
        """One of the files that are published of a photo. Raises OSError where the photo is gone or another one."""
        if name in self._last:
            return self._last[name]
        with contextlib.suppress(OSError):
            return (self._kept_in / name).read_bytes()
        from .convert import converted
        from .look import look

        data = (self._folder / path).read_bytes()
        seen = look(data, is_whole=True)
        if name not in names(seen):
            raise OSError(errno.ENOENT, "the photo was changed while it was read; try again", path)
        self._last = converted(data, seen)
        self._keep()
        return self._last[name]

    def _converted(self) -> frozenset[str]:
        """The digests of the photos that were converted in an earlier run: they were whole then."""
        if self._digests is None:
            there = os.listdir(self._kept_in) if self._kept_in.is_dir() else ()
            self._digests = frozenset(digest_in(name) for name in there)
        return self._digests

    def _keep(self) -> None:
        """Keep what was made, and drop what was made of photos that are no longer there.

        Where it cannot be written, pictures are made again next time, and nothing else is lost.
        """
        wanted = {name for _, seen in self._seen.values() for name in names(seen)}
        with contextlib.suppress(OSError):
            self._kept_in.mkdir(parents=True, exist_ok=True)
            for old in os.listdir(self._kept_in):
                if old not in wanted:
                    (self._kept_in / old).unlink()
            for name, data in self._last.items():
                beside = self._kept_in / f"{name}.new"
                beside.write_bytes(data)
                os.replace(beside, self._kept_in / name)
