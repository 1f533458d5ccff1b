"""Reads a file of one mistake, and makes the manual that has it.

The upper part of such a file is written by hand and is never written by the tests:

- the first line tells how the mistake came about;
- fields, each on a line: `rule` (or `none`), `marks` (the text that has the mark below it, or `nothing` where only the
  line is shown), `help` (a word that the help must hold, or `none`), `row` (of the table of what is accepted and what is
  refused), `saved as` (an encoding of Python) and `lines end in` (CRLF, CR) for the files that are changed. Where
  one mistake gives several findings, `rule`, `marks` and `help` come once for each, and `why more than one` says why;
- `--- FILE` and below it the lines that are changed: ` ` a line as it stands in the base, `-` one that is taken out,
  `+` one that is put in, `!` one that is put in and has the finding, `?` one that stays and has it.
  `+++ FILE` is a new file, or one that is written anew; `delete FILE` and `move FILE to FILE` say what they do.
  Characters that cannot be seen are written `<TAB>` and `<U+00A0>`.

Below `=== report` stands the whole report. `BAYLEAF_GOLDEN=write` writes it anew.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

HERE = Path(__file__).resolve().parent
BASE = HERE / "base"
REPORT = "=== report\n"

_FIELD = re.compile(r"([a-z][a-z ]*): *(.*)")
_UNSEEN = re.compile(r"<(?:TAB|U\+([0-9A-F]{4,5}))>")
_FIELDS = {"rule", "marks", "help", "row", "saved as", "lines end in", "why more than one", "reads", "file"}


@dataclass(frozen=True)
class Expected:
    """One finding, as it was written down by hand."""

    rule: str
    marks: str
    help: str
    file: str
    line: int


@dataclass
class Change:
    """What is changed in one file: the text before and after, and the offsets of the lines with a finding, in `after`."""

    file: str
    before: str = ""
    after: str = ""
    findings_at: list[int] = field(default_factory=list)
    is_new: bool = False


@dataclass(frozen=True, eq=False)
class Mistake:
    """One file of a mistake. `by_hand` is its upper part as it stands there."""

    path: Path
    by_hand: str
    report: str
    story: str
    fields: dict[str, list[str]]
    changes: tuple[Change, ...]
    moves: tuple[tuple[str, str | None], ...]

    @property
    def name(self) -> str:
        """Topic and name, as `form/hash-in-text`."""
        return self.path.relative_to(HERE).with_suffix("").as_posix()

    def one(self, name: str) -> str:
        """The value of a field that stands there at most once; empty without it."""
        values = self.fields.get(name, [""])
        assert len(values) == 1, f"{self.name}: `{name}` stands there {len(values)} times"
        return values[0]


def all_mistakes() -> list[Mistake]:
    """Every mistake there is."""
    return [read(path) for path in sorted(HERE.glob("*/*.txt"))]


def read(path: Path) -> Mistake:
    """The parts of a file."""
    text = path.read_text(encoding="utf-8")
    by_hand, mark, report = text.partition(REPORT)
    head, *rest = re.split(r"(?m)^(?=(?:---|\+\+\+|delete|move) )", by_hand)
    story, *lines = head.strip().split("\n")
    fields: dict[str, list[str]] = {}
    for line in filter(None, lines):
        match = _FIELD.fullmatch(line)
        assert match and match[1] in _FIELDS, f"{path}: no field: {line}"
        fields.setdefault(match[1], []).append(match[2])
    changes, moves = [], []
    for part in rest:
        command, _, tail = part.partition(" ")
        name, _, body = tail.partition("\n")
        if command in ("---", "+++"):
            changes.append(_change(name, body, command == "+++"))
        else:
            old, _, new = name.partition(" to ")
            moves.append((old, new or None))
    return Mistake(path, by_hand, report, story, fields, tuple(changes), tuple(moves))


def _change(file: str, body: str, is_new: bool) -> Change:
    change = Change(file, is_new=is_new)
    for line in body.rstrip("\n").split("\n"):
        sign, text = line[:1] or " ", _UNSEEN.sub(_unseen, line[1:]) + "\n"
        assert sign in " -+!?", f"{file}: a line begins with `{sign}`: {line}"
        if sign in "!?":
            change.findings_at.append(len(change.after))
        if sign in " -?":
            change.before += text
        if sign in " +!?":
            change.after += text
    return change


def _unseen(match: re.Match[str]) -> str:
    return chr(int(match[1], 16)) if match[1] else "\t"


@cache
def base() -> dict[str, bytes]:
    """The files of the manual that is right."""
    return {path.relative_to(BASE).as_posix(): path.read_bytes() for path in sorted(BASE.rglob("*")) if path.is_file()}


def expected(mistake: Mistake) -> tuple[Expected, ...]:
    """The findings that were written down, in the order of the file."""
    if mistake.fields.get("rule") == ["none"]:
        return ()
    places = list(_places(mistake))
    if "file" in mistake.fields:  # a file that holds no text, or is not read at all
        places = [(file, 1) for file in mistake.fields["file"]]
    fields = mistake.fields
    columns = fields["rule"], [_UNSEEN.sub(_unseen, text) for text in fields["marks"]], fields["help"]
    return tuple(Expected(*row, *place) for *row, place in zip(*columns, places, strict=True))


def _places(mistake: Mistake) -> Iterator[tuple[str, int]]:
    texts = changed(mistake)
    for change in mistake.changes:
        start = 0 if change.is_new else texts[change.file].index(change.after)
        for offset in change.findings_at:
            yield change.file, texts[change.file].count("\n", 0, start + offset) + 1


def changed(mistake: Mistake) -> dict[str, str]:
    """The texts of the files that the mistake changes."""
    texts: dict[str, str] = {}
    for change in mistake.changes:
        if change.is_new:
            texts[change.file] = change.after
            continue
        text = texts.get(change.file)
        if text is None:
            text = base().get(change.file, b"").decode("utf-8")
        assert text.count(change.before) == 1, f"{mistake.name}: not once in {change.file}:\n{change.before}"
        texts[change.file] = text.replace(change.before, change.after)
    return texts


def write(mistake: Mistake, folder: Path) -> Path:
    """The manual with the mistake."""
    files = dict(base())
    encoding = mistake.one("saved as") or "utf-8"
    ending = {"CRLF": "\r\n", "CR": "\r", "": "\n"}[mistake.one("lines end in")]
    for name, text in changed(mistake).items():
        files[name] = text.replace("\n", ending).encode(encoding)
    for old, new in mistake.moves:
        data = files.pop(old)
        if new is not None:
            files[new] = data
    for name, data in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    return folder
