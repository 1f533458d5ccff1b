"""What is saved in a manual, while somebody writes it.

The system tells of a save at once (through watchdog, which MkDocs brings). Where it does not, as on most network
drives, or tells too little, looking at names, times and sizes finds it a little later.
"""

import os
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from watchdog.events import (
    EVENT_TYPE_CREATED,
    EVENT_TYPE_DELETED,
    EVENT_TYPE_MODIFIED,
    EVENT_TYPE_MOVED,
    FileSystemEvent,
    FileSystemEventHandler,
)
from watchdog.observers import Observer

#: Opening and reading a file is told too; the checker itself does it.
_TOLD = frozenset((EVENT_TYPE_CREATED, EVENT_TYPE_DELETED, EVENT_TYPE_MODIFIED, EVENT_TYPE_MOVED))
_FOLDERS = ("procedures", "records")
#: Editors write a file in several goes, in seconds: it is read when nothing was told for so long.
_SETTLE = 0.02
#: Seconds between two looks: at least the first, at most the second, and so long that looking takes a twentieth.
_SHORTEST, _LONGEST, _SHARE = 0.2, 2.0, 20

#: Of each file, by its path relative to the manual, its time and size.
Stamp = dict[str, tuple[int, int]]


class Saves:
    """Tells of each save which files are not as they were. Made before the manual is read, so that none is missed.

    Whoever makes it closes it: on Windows the program does not end before.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder.resolve()
        self._told: set[str] = set()
        self._lock = threading.Lock()
        self._woken = threading.Event()
        self._observer = self._observe()
        try:
            self._seen = stamp(self._folder)
        except BaseException:  # Ctrl+C, while a large manual is looked through
            self.close()
            raise
        self._pause = _SHORTEST

    def __iter__(self) -> Iterator[tuple[str, ...]]:
        """Waits for each save; gives the paths that changed, relative to the manual, the last saved one at the end."""
        while True:
            told = self.wait(self._pause)
            while self.wait(_SETTLE):
                pass
            changed = self._of_told() if told else self._of_a_look()
            if changed:
                yield changed

    def wait(self, seconds: float) -> bool:
        """Waits until the system tells of something, so long at most; whether it did."""
        woken = self._woken.wait(seconds)
        self._woken.clear()
        return woken

    def close(self) -> None:
        """Ends what listens."""
        if self._observer is not None:
            self._observer.stop()
            self._observer.join()

    def tell(self, path: str) -> None:
        """Takes down that something happened at a path; one without a name asks for a look at everything."""
        with self._lock:
            self._told.add(path)
        self._woken.set()

    def _observe(self) -> Any:
        observer, listener = Observer(), _Listener(self)
        try:
            observer.schedule(listener, str(self._folder))
            for name in _FOLDERS:
                if (self._folder / name).is_dir():
                    observer.schedule(listener, str(self._folder / name), recursive=True)
            observer.start()
        except (OSError, RuntimeError):  # the system has no more of it to give: looking finds it too
            return None
        return observer

    def _of_told(self) -> tuple[str, ...]:
        """What the system told of, where it is really not as it was."""
        with self._lock:
            told, self._told = self._told, set()
        if "" in told:
            return self._of_a_look()
        names = [Path(os.path.relpath(path, self._folder)).as_posix() for path in told]
        changed = []
        for name in filter(_belongs, names):
            now = _stamp_of(self._folder / name)
            if now != self._seen.get(name):
                changed.append(name)
            self._seen.pop(name, None)
            if now is not None:
                self._seen[name] = now
        return _by_time(changed, self._seen)

    def _of_a_look(self) -> tuple[str, ...]:
        begun = time.perf_counter()
        now = stamp(self._folder)
        self._pause = min(_LONGEST, max(_SHORTEST, _SHARE * (time.perf_counter() - begun)))
        changed = [name for name in now.keys() | self._seen.keys() if now.get(name) != self._seen.get(name)]
        self._seen = now
        return _by_time(changed, now)


class _Listener(FileSystemEventHandler):
    """Hands on what the system tells of files; of folders, that there is something to look for."""

    def __init__(self, saves: Saves) -> None:
        self._saves = saves

    def on_any_event(self, event: FileSystemEvent) -> None:
        """Called from a thread of the observer."""
        if event.event_type not in _TOLD:
            return
        if event.is_directory:
            if event.event_type != EVENT_TYPE_MODIFIED:  # told of a folder whenever a file in it is
                self._saves.tell("")
            return
        for path in (event.src_path, event.dest_path):
            if path:
                self._saves.tell(os.fsdecode(path))


def stamp(folder: Path) -> Stamp:
    """Everything that the manual is made from, as it is now."""
    files = [folder / "mkdocs.yml"]
    for top in _FOLDERS:
        for root, _, names in os.walk(folder / top):
            files += [Path(root, name) for name in names]
    found = ((path.relative_to(folder).as_posix(), _stamp_of(path)) for path in files)
    return {name: one for name, one in found if one is not None and _belongs(name)}


def _belongs(name: str) -> bool:
    """Whether a manual is made from this; what begins with a dot is an editor's or the system's."""
    first, _, rest = name.partition("/")
    return name == "mkdocs.yml" or (first in _FOLDERS and bool(rest) and not rest.rpartition("/")[2].startswith("."))


def _stamp_of(path: Path) -> tuple[int, int] | None:
    try:
        facts = path.stat()
    except OSError:  # gone while we looked, or an editor's lock that leads nowhere
        return None
    return facts.st_mtime_ns, facts.st_size


def _by_time(names: list[str], stamps: Stamp) -> tuple[str, ...]:
    return tuple(sorted(names, key=lambda name: (stamps.get(name, (0, 0))[0], name)))
