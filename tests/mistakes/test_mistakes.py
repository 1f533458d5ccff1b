"""What authors do wrong, and what they are told: one file for each mistake, read as the author would read it.

See `reading` for how such a file is written. The rule, the marked text, the line and a word of the help are held
against what was written down by hand; the whole report is a golden output.
"""

import os
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from bayleaf.diagnostics.finding import Finding
from bayleaf.diagnostics.report_text import report_text
from bayleaf.manual import Manual, load_manual
from bayleaf.manual_mending import carry_out, offers
from kit import TODAY
from mistakes.reading import REPORT, Mistake, all_mistakes, base, changed, expected, write

MISTAKES = all_mistakes()

#: The table of what is accepted and what is refused of the ways in which technicians write.
ROWS = (
    "accept: byte order mark", "accept: CRLF", "accept: UTF-16 with byte order mark",
    "accept: − and – as minus", "accept: no-break space in values and between thousands",
    "accept: decimal comma", "accept: 0,125",
    "accept: newton metre in every spelling", "accept: ohm in every spelling", "accept: degrees Celsius in every spelling",
    "accept: micro in both characters", "accept: mOhm and MOhm",
    "accept: curly quotes inside text", "accept: no, 5:30, 00123 and 1.10 as text",
    "refuse: Windows-1252", "refuse: 1.000", "refuse: 1,000", "refuse: nm", "refuse: NM", "refuse: MOHM", "refuse: mohm",
    "refuse: bare C", "refuse: bare k", "refuse: curly quote as opener", "refuse: tab as indent",
    "refuse: no-break space as indent", "refuse: zero-width character",
    "refuse: title:Text", "refuse: do: P0A0D: …",
    "refuse: text that starts with *", "refuse: text that starts with &", "refuse: text that starts with !",
    "refuse: text that starts with %", "refuse: text that starts with @",
    "refuse: space and #", "refuse: comma in braces",
)  # fmt: skip


#: The mistakes that are mended, and whether what comes out are the bytes of the manual without the mistake.
MENDED = {
    "files/unicode-of-windows": True,
    "files/workshop-with-yaml-ending": True,
    "files/yaml-ending": True,
    "typing/code-before-colon": False,
    "typing/colon-in-instruction": False,
    "typing/emphasis-by-stars": False,
    "typing/exclamation-first": False,
    "typing/limit-without-space": True,
    "typing/long-dash-of-a-word-processor": True,
    "typing/no-break-space-from-chat": True,
    "typing/percent-first": False,
    "typing/source-with-colon": True,
    "typing/tab": True,
    "typing/tabs-everywhere": True,
    "typing/title-without-space": True,
    "typing/windows-1252": False,
    "typing/word-processor-quotes": False,
    "typing/zero-width-space-in-name": True,
    "values/volts-dc": True,
}

Checked = Callable[[Mistake], Manual]


@pytest.fixture(scope="module")
def checked(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    """The manual with a mistake, checked on a fixed day: once for all that is asked of it."""
    return cache(lambda mistake: load_manual(write(mistake, tmp_path_factory.mktemp("with")), today=TODAY))


def marked(finding: Finding, manual: Manual) -> str:
    """The text that has the mark below it in the report."""
    lines = (manual.text(finding.place.file) or "").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    place = finding.place
    return "".join(lines[place.line - 1 : place.line])[place.column - 1 : place.end_column - 1] or "nothing"


@pytest.fixture(scope="module")
def base_manual(tmp_path_factory: pytest.TempPathFactory) -> Manual:
    """The manual without a mistake."""
    folder = tmp_path_factory.mktemp("base")
    for name, data in base().items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    return load_manual(folder, today=TODAY)


def test_the_manual_without_a_mistake_is_right(base_manual: Manual) -> None:
    """So whatever is found comes from the mistake."""
    assert () == base_manual.findings


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.name)
def test_mistake(mistake: Mistake, checked: Checked) -> None:
    """One mistake gives one finding, with its rule, under the smallest text, with a help that says what to write."""
    manual = checked(mistake)

    found = [(one.rule, one.place.file, one.place.line, marked(one, manual)) for one in manual.findings]
    written_down = expected(mistake)
    assert [(one.rule, one.file, one.line, one.marks) for one in written_down] == found
    assert len(written_down) < 2 or mistake.one("why more than one")
    for one, finding in zip(written_down, manual.findings, strict=True):
        assert one.help.casefold() in (finding.help or "none").casefold()


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.name)
def test_report(mistake: Mistake, checked: Checked) -> None:
    """The whole report, as it is printed."""
    manual = checked(mistake)

    report = report_text(manual.findings, manual.text, len(manual.files))
    if os.environ.get("BAYLEAF_GOLDEN") == "write":
        mistake.path.write_text(mistake.by_hand + REPORT + report, encoding="utf-8", newline="\n")
        return
    assert report == mistake.report


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.name)
def test_what_is_mended_is_right_then_and_nothing_else_is_touched(
    mistake: Mistake, checked: Checked, tmp_path: Path
) -> None:
    """Either the manual has no fault afterwards, or nothing was offered: no mend leaves something behind."""
    offered = [offer.finding for offer in offers(checked(mistake))]

    assert (mistake.name in MENDED) == bool(offered)
    if offered:
        carry_out(write(mistake, tmp_path), offered)
        assert () == load_manual(tmp_path, today=TODAY).findings
        touched = {name for name, data in base().items() if (tmp_path / name).read_bytes() != data}
        assert touched == (set() if MENDED[mistake.name] else set(changed(mistake)))


@pytest.mark.parametrize(
    "mistake", [one for one in MISTAKES if one.one("reads") == "as the base"], ids=lambda mistake: mistake.name
)
def test_what_is_accepted_is_read_as_the_same(mistake: Mistake, checked: Checked, base_manual: Manual) -> None:
    """Another way of writing the same is the same procedure, profile and workshop."""
    manual = checked(mistake)

    assert base_manual.vehicles == manual.vehicles
    assert base_manual.procedures == manual.procedures
    assert base_manual.workshop == manual.workshop
    assert base_manual.records == manual.records


def test_every_row_of_the_table_is_shown() -> None:
    """Each way of writing that is accepted or refused has a file; what a field `row` names is in the table."""
    shown = {row.strip() for mistake in MISTAKES for rows in mistake.fields.get("row", ()) for row in rows.split("; ")}

    assert set(ROWS) == shown


def test_there_are_enough_of_them() -> None:
    """At least 80 mistakes, by which at least 50 rules are shown."""
    rules = {rule for mistake in MISTAKES for rule in mistake.fields["rule"]} - {"none"}

    assert len([mistake for mistake in MISTAKES if expected(mistake)]) >= 80
    assert len(rules) >= 50
