"""Carrying out mends: the one place where what a finding offers to write is written."""

from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from .diagnostics.finding import Finding
from .diagnostics.mend import Edit
from .loading.load import AnyKind, load
from .loading.text import Fault, Lines, decode
from .manual import Manual
from .manual_files import bytes_of, find_files
from .manual_writing import replace_file


@dataclass(frozen=True, slots=True)
class Change:
    """A line before and after a mend, counted from 1."""

    line: int
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Offer:
    """A finding whose mend was tried: what it changes, so that it can be shown before it is done."""

    finding: Finding
    changes: tuple[Change, ...]


def offers(manual: Manual) -> Iterator[Offer]:
    """The mends of a manual that do away with their finding and bring up no new one; the files stay as they are."""
    kinds = {file.path: file.kind for file in find_files(manual.folder).files}
    for finding in manual.findings:
        mend, file = finding.mend, finding.place.file
        if mend is None:
            continue
        if mend.rename is not None:
            if not _is_taken(manual.folder / mend.rename, manual.folder / file):
                yield Offer(finding, ())
            continue
        data, unread = bytes_of(manual.folder, file)
        after = mended(data, (finding,)) if unread is None else None
        if after is not None and (mend.encoding or _is_better(file, kinds[file], data, after, finding)):
            yield Offer(finding, tuple(_changes(data, after)))


def _is_taken(path: Path, file: Path) -> bool:
    """Whether another file lies there. Windows and macOS find `job.YML` under the name `job.yml` too."""
    return path.exists() and not path.samefile(file)


def carry_out(folder: Path, accepted: Sequence[Finding]) -> None:
    """Writes the mends of these findings; an OSError leaves the file that it is about as it was."""
    for file in dict.fromkeys(finding.place.file for finding in accepted):
        own = [finding for finding in accepted if finding.place.file == file]
        rename = next((finding.mend.rename for finding in own if finding.mend and finding.mend.rename), None)
        if rename is not None:
            _rename(folder / file, folder / rename)
            continue
        after = mended((folder / file).read_bytes(), own)
        if after is not None:
            replace_file(folder / file, after)


def _rename(file: Path, path: Path) -> None:
    """Renames a file, by a third name where it is found under the new one already.

    POSIX lets `rename` do nothing where both names lead to one file.
    """
    if not path.exists():
        file.rename(path)
        return
    between = file.rename(path.with_name(f".{path.name}.new"))
    try:
        between.rename(path)
    except OSError:
        between.rename(file)
        raise


def mended(data: bytes, findings: Sequence[Finding]) -> bytes | None:
    """A file as UTF-8 with the mends of these findings; None where it cannot be read as they say.

    Of edits that overlap the first is done; the other is offered again when the file is read the next time.
    """
    encoding = next((one.mend.encoding for one in findings if one.mend and one.mend.encoding), None)
    if encoding is not None:
        with suppress(UnicodeDecodeError):
            return data.decode(encoding).removeprefix("\ufeff").encode()
        return None
    text = decode(data)
    if isinstance(text, Fault):
        return None
    starts = Lines(text).starts
    spans = sorted((*_span(starts, edit), edit.new) for one in findings if one.mend for edit in one.mend.edits)
    parts, at = [], 0
    for start, end, new in spans:
        if start >= at:
            parts += [text[at:start], new]
            at = end
    return "".join([*parts, text[at:]]).encode()


def _span(starts: Sequence[int], edit: Edit) -> tuple[int, int]:
    place = edit.place
    return starts[place.line - 1] + place.column - 1, starts[place.end_line - 1] + place.end_column - 1


def _is_better(file: str, kind: AnyKind, before: bytes, after: bytes, finding: Finding) -> bool:
    """Whether a mend does away with its finding and no rule is broken more often."""
    told = Counter(one.rule for one in load(file, before, kind).findings)
    left = Counter(one.rule for one in load(file, after, kind).findings)
    return left[finding.rule] < told[finding.rule] and not left - told


def _changes(before: bytes, after: bytes) -> Iterator[Change]:
    """The lines that a mend changes; it makes no line and takes none away. None of a file in another alphabet."""
    old = decode(before)
    text = before.decode("utf-8", "replace") if isinstance(old, Fault) else old
    if "\0" in text:
        return
    for number, (one, two) in enumerate(zip(_lines(text), _lines(after.decode()), strict=True), 1):
        if one != two:
            yield Change(number, one, two)


def _lines(text: str) -> list[str]:
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
