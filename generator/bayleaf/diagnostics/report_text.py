"""Findings as a report to read: where, what, the line with its mark, why, and what to write instead.

The labels are words and come first in their line, so the report reads well aloud; colour repeats what
the words say and never says anything alone.
"""

import textwrap
import unicodedata
from collections.abc import Callable, Sequence
from typing import NamedTuple

from .finding import SEVERITIES, Finding
from .place import Place
from .report_json import counts
from .report_paths import as_written

Sources = Callable[[str], str | None]

_INDENT = "    "
#: A tab in a printed line becomes this many spaces; where it stood in the file does not matter here.
_TAB = 4
#: Characters of the source before and behind a mark that are shown of a line too long for the report.
_BEFORE = 20
_COLOURS = {"error": "1;31", "warning": "1;33", "advice": "1;36", "mark": "1", "quiet": "2"}
#: What stands for signs that a console cannot show; any other becomes `?`.
_ASCII = dict(
    zip(
        "“”„‘’–—−·×\u2126\u03a9\u00b5\u03bc±≤≥²³\u00a0→…°",
        (
            '"',
            '"',
            '"',
            "'",
            "'",
            "-",
            "-",
            "-",
            ".",
            "x",
            "Ohm",
            "Ohm",
            "u",
            "u",
            "+/-",
            "<=",
            ">=",
            "2",
            "3",
            " ",
        )
        + ("->", "...", "deg "),
        strict=True,
    )
)


class Layout(NamedTuple):
    """How a report is printed: with colour or not, how wide, with which paths, on which console.

    `shows` tells whether the console can show a text (`can_show` makes one from an encoding). What is `plain` is read
    aloud, or by a program: a path of steps is told in words there, without arrows.
    """

    colour: bool = False
    width: int = 100
    path: Callable[[str], str] = as_written
    shows: Callable[[str], bool] = lambda text: True
    plain: bool = False


def can_show(encoding: str | None) -> Callable[[str], bool]:
    """Whether a console of this encoding can show a text; unknown encodings are taken for ASCII."""

    def shows(text: str) -> bool:
        try:
            text.encode(encoding or "ascii")
        except (UnicodeEncodeError, LookupError):
            return False
        return True

    return shows


def report_text(findings: Sequence[Finding], sources: Sources, files: int, layout: Layout | None = None) -> str:
    """The whole report. `sources` gives the text of a file, or None; `files` is how many were checked."""
    layout = layout or Layout()
    blocks = [_block(told, sources, layout) for told in _told_together(findings)]
    return "\n".join([*blocks, _closing(findings, files) + "\n"])


def _told_together(findings: Sequence[Finding]) -> list[tuple[Finding, ...]]:
    """The findings as they are told: those of a file that are read as one stand together, behind its others."""
    by_file: dict[str, dict[tuple[str, str] | int, list[Finding]]] = {}
    for at, finding in enumerate(findings):
        key = at if finding.together is None else (finding.rule, finding.together)
        by_file.setdefault(finding.place.file, {}).setdefault(key, []).append(finding)
    return [
        tuple(told) for of_file in by_file.values()
        for _, told in sorted(of_file.items(), key=lambda one: isinstance(one[0], tuple))
    ]  # fmt: skip


def _block(told: Sequence[Finding], sources: Sources, layout: Layout) -> str:
    finding = told[0]
    place = finding.place
    head = f"{layout.path(place.file)}:{place.line}:{place.column}"
    word = _coloured(f"{finding.severity}, {finding.kind}", finding.severity, layout)
    lines = [f"{_shown(head, layout)}  {word}"]
    several = len(told) > 1
    message = f"{len(told)} {finding.together}" if several else finding.message
    lines += _wrapped(message, "  ", "  ", layout)
    lines += ["", *(_listed(told, sources, layout) if several else _source_lines(place, sources, layout))]
    if finding.because:
        lines += _labelled("because", finding.because, layout)
    for see in finding.see:
        where = f"line {see.place.line}"
        if see.place.file != place.file:
            where = f"{layout.path(see.place.file)}:{see.place.line}"
        lines += _labelled("see", f"{where}: {see.text}", layout)
        lines += _source_lines(see.place, sources, layout)
    if finding.help:
        lines += _labelled("help", finding.help, layout)
    lines.append(_coloured(f"  rule:    {finding.rule}  (bayleaf explain {finding.rule})", "quiet", layout))
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _labelled(label: str, text: str, layout: Layout) -> list[str]:
    return _wrapped(text, f"  {label + ':':<8} ", " " * 11, layout)


def _wrapped(text: str, first: str, rest: str, layout: Layout) -> list[str]:
    """Lines of the given width; words are not broken, so that a text to copy stays whole."""
    return textwrap.wrap(
        _shown(" ".join((text.replace("→", "then") if layout.plain else text).split()), layout),
        layout.width,
        initial_indent=first,
        subsequent_indent=rest,
        break_long_words=False,
        break_on_hyphens=False,
    ) or [first.rstrip()]


def _listed(told: Sequence[Finding], sources: Sources, layout: Layout) -> list[str]:
    """The lines of several findings one below the other, without their indent."""
    wide = len(str(told[-1].place.line))
    lines = []
    for finding in told:
        line = _line(finding.place, sources)
        if line is not None:
            number = f"{_INDENT}{finding.place.line:>{wide}}  "
            before, marked, behind = _window(line.strip(), 0, 1, layout.width - len(number))
            lines.append(number + _printable(before + marked + behind, layout))
    return [*lines, ""] if lines else []


def _line(place: Place, sources: Sources) -> str | None:
    """The line of the file; None where it cannot be had, or is empty."""
    source = sources(place.file)
    lines = [] if source is None else source.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if not 0 < place.line <= len(lines) or not lines[place.line - 1].strip():
        return None
    return lines[place.line - 1]


def _source_lines(place: Place, sources: Sources, layout: Layout) -> list[str]:
    """The line of the file and the mark under the span; nothing where the line cannot be had."""
    line = _line(place, sources)
    if line is None:
        return []
    end = place.end_column - 1 if place.end_line == place.line else len(line)
    number = f"{_INDENT}{place.line}  "
    before, marked, behind = _window(line, place.column - 1, end, layout.width - len(number))
    before, marked, behind = (_printable(part, layout) for part in (before, marked, behind))
    mark = " " * _columns(number + before) + "^" * max(_columns(marked), 1)
    return [number + before + marked + behind, _coloured(mark, "mark", layout), ""]


def _window(line: str, start: int, end: int, width: int) -> tuple[str, str, str]:
    """The line in three parts, cut to the width around the mark."""
    before, marked, behind = line[:start], line[start:end], line[end:]
    if _columns(line.expandtabs(_TAB)) <= width:
        return before, marked, behind
    if len(before) + len(marked) > width - 4:
        before = "… " + before[-_BEFORE:] if len(before) > _BEFORE else before
    room = max(width - len(before) - 4, 10)
    if len(marked) > room:
        return before, marked[:room], " …"
    room -= len(marked)
    return before, marked, behind if len(behind) <= room else behind[:room] + " …"


def _printable(text: str, layout: Layout) -> str:
    """Tabs as spaces; characters that move nothing or cannot be seen as a sign that can."""
    signs = []
    for character in text:
        if character == "\t":
            signs.append(" " * _TAB)
        elif unicodedata.category(character) in ("Cc", "Cf", "Zl", "Zp", "Cn", "Cs"):
            signs.append("\N{MIDDLE DOT}")
        else:
            signs.append(character)
    return _shown("".join(signs), layout)


def _shown(text: str, layout: Layout) -> str:
    """The text as the console can show it."""
    if layout.shows(text):
        return text
    return "".join(character if layout.shows(character) else stand_in(character) for character in text)


def stand_in(character: str) -> str:
    """What is printed for a sign that a console cannot show."""
    return _ASCII.get(character, "?")


def _columns(text: str) -> int:
    """How many columns a text takes: East Asian wide and full-width signs two, combining marks none.

    Source: Unicode Standard Annex 11, East Asian Width.
    """
    return sum(
        0 if unicodedata.combining(character) else 2 if unicodedata.east_asian_width(character) in "WF" else 1
        for character in text
    )


def _coloured(text: str, role: str, layout: Layout) -> str:
    return f"\033[{_COLOURS[role]}m{text}\033[0m" if layout.colour else text


def _closing(findings: Sequence[Finding], files: int) -> str:
    """One line that says how it stands."""
    if not findings:
        return f"No faults in {_number(files, 'file')}"
    found = counts(findings)
    words = [_number(found[severity], severity) for severity in SEVERITIES if found[severity]]
    concerned = len({finding.place.file for finding in findings})
    return f"{', '.join(words)} in {_number(concerned, 'file')}"


def _number(count: int, word: str) -> str:
    plural = word if word == "advice" else word + "s"
    return f"{count} {word if count == 1 else plural}"
