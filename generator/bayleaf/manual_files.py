"""Which files belong to a manual, by their places; and what is looked up in them later."""

import os
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path as Folder
from typing import NamedTuple

from .diagnostics.finding import Finding
from .diagnostics.mend import Mend
from .diagnostics.place import Place
from .loading.free_page import PageSource
from .loading.load import AnyKind, load
from .loading.text import Fault, decode
from .loading.tree import Source

#: The endings by which MkDocs knows a page in Markdown.
_PAGES = (".md", ".markdown", ".mdown", ".mkdn", ".mkd")
_NAME = re.compile(r"[a-z0-9][a-z0-9-]*")

#: Names whose pages stand beside those of the procedures.
RESERVED_FILE_NAMES = frozenset({"vehicle", "energy", "review"})
#: Folders whose names are those of pages at the root of the site.
RESERVED_FOLDER_NAMES = frozenset({"book", "rules", "assets", "search"})


class File(NamedTuple):
    """A file of the manual: its path relative to the manual's folder, with `/`, and its kind."""

    path: str
    kind: AnyKind


@dataclass(frozen=True, slots=True)
class Found:
    """The files of a manual in the order of their paths, and what is wrong with where they lie."""

    files: tuple[File, ...]
    findings: tuple[Finding, ...]


#: So many files stay in memory with all their nodes: the one in hand, and those that its findings point to.
_KEPT = 32


class Sources(Mapping[str, Source | PageSource]):
    """The texts of the files, and the places in them.

    The nodes that the places come from take thirty times the room of a file. Hardly any is ever asked for, so a
    file is read again when a place in it is.
    """

    def __init__(self, files: Mapping[str, tuple[bytes, AnyKind]]) -> None:
        """From the bytes and the kind of each file, by its path."""
        self._files = files
        self._read = lru_cache(maxsize=_KEPT)(self._load)

    def __getitem__(self, file: str) -> Source | PageSource:
        return self._read(file)

    def __contains__(self, file: object) -> bool:
        return file in self._files  # without reading it

    def __iter__(self) -> Iterator[str]:
        return iter(self._files)

    def __len__(self) -> int:
        return len(self._files)

    def text(self, file: str) -> str | None:
        """The text of a file; None of one that is not here. Of a file in another encoding it is what can be shown."""
        if file not in self._files:
            return None
        data = self._files[file][0]
        text = decode(data)
        if not isinstance(text, Fault):
            return text
        is_text = text.rule == "not-utf-8" and b"\0" not in data
        return data.decode("utf-8", "replace") if is_text else ""

    def _load(self, file: str) -> Source | PageSource:
        data, kind = self._files[file]
        return load(file, data, kind).source


def bytes_of(folder: Folder, path: str) -> tuple[bytes, Finding | None]:
    """The bytes of a file; none, and a finding that says why, where the system does not hand them out."""
    try:
        return (folder / path).read_bytes(), None
    except OSError as error:
        reason = (error.strerror or "the system gives no reason").lower()
        place = Place(path, 1, 1, 1, 1)
        help_ = "look whether the file is really there, and whether you may read it"
        return b"", Finding("file-not-opened", place, f"`{path}` cannot be opened: {reason}", None, help_)


def find_files(folder: Folder) -> Found:
    """Walks `procedures/` and `records/`."""
    files: list[File] = []
    findings: list[Finding] = []
    for path in _files_below(folder):
        kind = _kind_or_fault(path)
        if isinstance(kind, Finding):
            findings.append(kind)
        else:
            files.append(File(path, kind))
    return Found(tuple(files), tuple(findings))


def _files_below(folder: Folder) -> list[str]:
    found = []
    for top in ("procedures", "records"):
        above = os.fspath(folder / top)
        for root, folders, names in os.walk(above):
            folders[:] = [name for name in folders if not name.startswith(".")]
            base = top + root[len(above) :].replace(os.sep, "/")
            # what begins with a dot is an editor's lock or a system's note, not a file of the author
            seen = (name for name in names if not name.startswith("."))
            endings = (".yml", ".yaml", *_PAGES) if top == "procedures" else (".yml", ".yaml")
            found += [f"{base}/{name}" for name in seen if name.lower().endswith(endings)]
    return sorted(found)


@lru_cache(maxsize=20_000)  # asked for every file at every save
def _kind_or_fault(path: str) -> AnyKind | Finding:
    """The kind of a file by its place, or what is wrong with that place."""
    place = Place(path, 1, 1, 1, 1)
    top, *folders, name = path.split("/")
    if name.lower().endswith(_PAGES):
        return "page"
    if not name.endswith(".yml"):
        right = path[: path.rindex(".")] + ".yml"
        return Finding(
            "name-ends-in-yaml", place, f"`{name}` is not read: the names of files end in `.yml`",
            "with two endings, two files could be one procedure", f"rename it to `{right.split('/')[-1]}`",
            mend=Mend(rename=right),
        )  # fmt: skip
    stem = name.removesuffix(".yml")
    if top == "records" and not folders:
        return "record"
    if top == "procedures" and not folders and name == "workshop.yml":
        return "workshop"
    if top == "procedures" and len(folders) == 1 and folders[0] not in RESERVED_FOLDER_NAMES:
        if name == "vehicle.yml":
            return "vehicle"
        for part in (folders[0], stem):
            if not _NAME.fullmatch(part):
                help_ = "use lower-case letters, digits and hyphens, such as `replace-heater.yml`"
                return Finding(
                    "file-name-not-usable", place, f"`{part}` cannot be part of an identifier",
                    "the address of the page and every reference are made of it", help_,
                )  # fmt: skip
        if stem in RESERVED_FILE_NAMES:
            return Finding(
                "file-name-not-usable", place, f"a procedure cannot be called `{stem}`",
                f"the page `{stem}.html` of the vehicle stands there", "choose a name that says what is done",
            )  # fmt: skip
        return "procedure"
    return Finding(
        "file-out-of-place", place, f"`{path}` is neither a profile, a procedure, the workshop file nor a record",
        "the kind of a file is told by its place",
        "a procedure lies in `procedures/<vehicle>/<name>.yml`, a record in `records/<job>.yml`, "
        "the workshop file in `procedures/workshop.yml`",
    )  # fmt: skip
