"""The four reports, whole."""

import json

import pytest
from bayleaf.diagnostics.finding import Finding, See
from bayleaf.diagnostics.place import Place
from bayleaf.diagnostics.report_github import report_github
from bayleaf.diagnostics.report_json import report_json
from bayleaf.diagnostics.report_paths import below
from bayleaf.diagnostics.report_sarif import report_sarif
from bayleaf.diagnostics.report_text import Layout, can_show, report_text

VEHICLE = "procedures/larkway-m12/vehicle.yml"
JOB = "procedures/larkway-m12/heater.yml"
FILES = {
    VEHICLE: "format: 1\ncircuits:\n  traction:\n    voltage: {max: 410 V}\n",
    JOB: "steps:\r\n\t- tighten: terminal\r\n    torque: 6 N·m  # ≥ 5\r\n  - 作業: 高圧 Ω\n",
}
LIVE = Finding(
    "touch-of-live-part",
    Place(JOB, 2, 4, 2, 21),
    "`terminal` is touched while the traction circuit is live",
    "it carries up to 410 V; more than 60 V DC is voltage class B (ISO 6469-3), "
    "and nothing before this step takes it off",
    "isolate the traction circuit first: `- perform: larkway-m12/isolate-traction`",
    (See(Place(VEHICLE, 4, 20, 4, 25), "the highest voltage, 410 V"), See(Place(JOB, 3, 5, 3, 11), "the torque")),
    "danger",
    "error",
    {"circuit": "traction", "path": ["start", "step 1"]},
)
SHORT = Finding("source-missing", Place(JOB, 4, 5, 4, 7), "no source, 100 %: why?", kind="practice", severity="warning")
NOTE = Finding("unused-part", Place("workshop.yml", 1, 1, 1, 1), "nothing uses this", severity="advice")
FINDINGS = (LIVE, SHORT, NOTE)

TEXT_REPORT = """\
procedures/larkway-m12/heater.yml:2:4  error, danger
  `terminal` is touched while the traction circuit is live

    2      - tighten: terminal
             ^^^^^^^^^^^^^^^^^

  because: it carries up to 410 V; more than 60 V DC is voltage class B (ISO 6469-3), and nothing
           before this step takes it off
  see:     procedures/larkway-m12/vehicle.yml:4: the highest voltage, 410 V
    4      voltage: {max: 410 V}
                          ^^^^^

  see:     line 3: the torque
    3      torque: 6 N·m  # ≥ 5
           ^^^^^^

  help:    isolate the traction circuit first: `- perform: larkway-m12/isolate-traction`
  rule:    touch-of-live-part  (bayleaf explain touch-of-live-part)

procedures/larkway-m12/heater.yml:4:5  warning, practice
  no source, 100 %: why?

    4    - 作業: 高圧 Ω
           ^^^^

  rule:    source-missing  (bayleaf explain source-missing)

workshop.yml:1:1  advice, form
  nothing uses this

  rule:    unused-part  (bayleaf explain unused-part)

1 error, 1 warning, 1 advice in 2 files
"""


def test_text_report_shows_each_place_with_its_line_and_mark():
    """A tab is four columns, a wide sign two; a file without text shows no line."""
    assert report_text(FINDINGS, FILES.get, 9) == TEXT_REPORT


DRAFT = "procedures/larkway-m12/draft.yml"
FILES[DRAFT] = "about: TODO\n" + "\n" * 8 + "    do: TODO\n"


def _to_fill(line: int, column: int, number: int) -> Finding:
    return Finding(
        "todo-left", Place(DRAFT, line, column, line, column + 4), f"still to fill ({number} of 2)", "nobody knows",
        "write it", severity="advice", together="places are still to be filled in",
    )  # fmt: skip


def test_what_is_read_as_one_is_told_once_behind_the_other_findings_of_its_file():
    """Its lines stand one below the other, and each still counts; a single one is told as any other."""
    fault = Finding("empty-value", Place(DRAFT, 2, 1, 2, 2), "nothing here")
    report = report_text((_to_fill(1, 8, 1), fault, _to_fill(10, 9, 2)), FILES.get, 1)

    assert (
        report.split("\n\n", 1)[1].split("\n\n", 1)[1]
        == """\
procedures/larkway-m12/draft.yml:1:8  advice, form
  2 places are still to be filled in

     1  about: TODO
    10  do: TODO

  because: nobody knows
  help:    write it
  rule:    todo-left  (bayleaf explain todo-left)

1 error, 2 advice in 1 file
"""
    )
    assert "still to fill (1 of 2)" in report_text((_to_fill(1, 8, 1),), FILES.get, 1)


def test_editors_and_code_hosts_mark_each_of_what_is_read_as_one():
    """Every place is a finding of its own there."""
    both = (_to_fill(1, 8, 1), _to_fill(10, 9, 2))
    assert [1, 10] == [one["line"] for one in json.loads(report_json(both))["diagnostics"]]
    assert 2 == report_github(both).count("::notice")


@pytest.mark.parametrize(("files", "line"), [(1, "No faults in 1 file\n"), (9, "No faults in 9 files\n")])
def test_text_report_without_findings_says_what_was_checked(files, line):
    """One line."""
    assert line == report_text((), FILES.get, files)


def test_text_report_on_a_console_of_old():
    """What the console cannot show is spelled; the mark stays under its span."""
    report = report_text((LIVE, SHORT), FILES.get, 1, Layout(shows=can_show("ascii")))

    report.encode("ascii")
    assert "    3      torque: 6 N.m  # >= 5\n           ^^^^^^\n" in report
    assert "    4    - ??: ?? Ohm\n           ^^\n" in report
    assert report_text((LIVE,), FILES.get, 1) == report_text((LIVE,), FILES.get, 1, Layout(shows=can_show("utf-8")))
    assert not can_show("no-such-encoding")("Ω") and not can_show(None)("Ω")


def test_colour_repeats_the_words_and_changes_none():
    """The same text, the control sequences (ECMA-48, SGR) taken out."""
    coloured = report_text(FINDINGS, FILES.get, 9, Layout(colour=True))
    plain = coloured.replace("\033[0m", "")
    for code in ("1;31", "1;33", "1;36", "1", "2"):
        plain = plain.replace(f"\033[{code}m", "")

    assert plain == TEXT_REPORT
    assert "\033[1;31merror, danger\033[0m" in coloured


def test_text_report_keeps_to_the_width():
    """Words are not broken, so only a word longer than the line stands out; long source lines are cut at the mark."""
    line = "key: " + "word " * 60 + "here " + "word " * 60
    finding = Finding("r", Place("a.yml", 1, 306, 1, 310), "m " * 80, "b " * 80, "h " * 80)
    report = report_text((finding,), lambda file: line, 1, Layout(width=60))

    assert max(map(len, report.splitlines())) <= 60
    shown, mark = report.splitlines()[4:6] if "^" in report.splitlines()[5] else report.splitlines()[5:7]
    assert shown[mark.index("^") : mark.rindex("^") + 1] == "here"


def test_text_report_marks_one_column_at_the_end_of_a_line_and_shows_the_unseen():
    """A span of no width has a mark; an invisible character has a sign in its place."""
    finding = Finding("r", Place("a.yml", 1, 5, 1, 5), "m")
    seen = Finding("r", Place("a.yml", 1, 2, 1, 3), "m")

    assert "    1  abcd\n           ^\n" in report_text((finding,), lambda file: "abcd", 1)
    assert "    1  a·b\n        ^\n" in report_text((seen,), lambda file: "a\u200bb", 1)


def test_paths_are_printed_from_the_current_folder():
    """A finding knows the path below the manual; each report maps it."""
    path = below("../manuals\\demo/")

    assert path(JOB) == "../manuals/demo/" + JOB
    assert (below(".")(JOB), below("")(JOB)) == (JOB, JOB)
    assert "\n../manuals/demo/workshop.yml:1:1 " in report_text(FINDINGS, FILES.get, 1, Layout(path=path))
    assert json.loads(report_json(FINDINGS, path))["diagnostics"][2]["file"] == "../manuals/demo/workshop.yml"
    assert "file=../manuals/demo/workshop.yml," in report_github(FINDINGS, path)
    assert '"uri": "../manuals/demo/workshop.yml"' in report_sarif(FINDINGS, "1.0", path)


def test_json_report_whole():
    """The object that the format of the report promises; what is missing is null, not left out."""
    report = report_json((LIVE, SHORT))

    assert report.endswith("}\n")
    expected = {
        "format": 1,
        "diagnostics": [
            {
                "rule": "touch-of-live-part",
                "class": "danger",
                "severity": "error",
                "file": JOB,
                "line": 2,
                "column": 4,
                "end_line": 2,
                "end_column": 21,
                "message": LIVE.message,
                "because": LIVE.because,
                "see": [
                    {
                        "file": VEHICLE,
                        "line": 4,
                        "column": 20,
                        "end_line": 4,
                        "end_column": 25,
                        "text": LIVE.see[0].text,
                    },
                    {"file": JOB, "line": 3, "column": 5, "end_line": 3, "end_column": 11, "text": "the torque"},
                ],
                "help": LIVE.help,
                "data": {"circuit": "traction", "path": ["start", "step 1"]},
            },
            {
                "rule": "source-missing",
                "class": "practice",
                "severity": "warning",
                "file": JOB,
                "line": 4,
                "column": 5,
                "end_line": 4,
                "end_column": 7,
                "message": "no source, 100 %: why?",
                "because": None,
                "see": [],
                "help": None,
                "data": {},
            },
        ],
        "counts": {"error": 1, "warning": 1, "advice": 0},
    }
    assert expected == json.loads(report)


GITHUB_REPORT = (
    "::error file=procedures/larkway-m12/heater.yml,line=2,col=4,endLine=2,endColumn=20,"
    "title=touch-of-live-part (danger)::`terminal` is touched while the traction circuit is live"
    "%0ABecause: it carries up to 410 V; more than 60 V DC is voltage class B (ISO 6469-3), and nothing before this"
    " step takes it off%0ASee procedures/larkway-m12/vehicle.yml:4: the highest voltage, 410 V"
    "%0ASee procedures/larkway-m12/heater.yml:3: the torque"
    "%0AHelp: isolate the traction circuit first: `- perform: larkway-m12/isolate-traction`\n"
    "::warning file=procedures/larkway-m12/heater.yml,line=4,col=5,endLine=4,endColumn=6,"
    "title=source-missing (practice)::no source, 100 %25: why?\n"
    "::notice file=workshop.yml,line=1,col=1,endLine=1,endColumn=1,title=unused-part (form)::nothing uses this\n"
)


def test_github_report_whole():
    """One line a finding; `%` and line breaks of the text are escaped."""
    assert report_github(FINDINGS) == GITHUB_REPORT


def test_github_report_escapes_properties_and_drops_columns_of_longer_spans():
    """`:` and `,` would end a property."""
    finding = Finding("a:b,c", Place("x,y:100%.yml", 1, 2, 3, 4), "one\r\ntwo")

    expected = "::error file=x%2Cy%3A100%25.yml,line=1,endLine=3,title=a%3Ab%2Cc (form)::one%0D%0Atwo\n"
    assert expected == report_github((finding,))


def test_sarif_report_has_the_shape_of_the_standard():
    """Property names and required properties as in OASIS SARIF 2.1.0 (2020): sarifLog 3.13, run 3.14, tool 3.18,
    toolComponent 3.19, result 3.27, physicalLocation 3.29, region 3.30, reportingDescriptor 3.49; numbers from memory.
    """
    log = json.loads(report_sarif(FINDINGS, "0.1.0", titles={"unused-part": "A part that nothing uses"}))

    assert {"$schema", "version", "runs"} == set(log)
    assert log["version"] == "2.1.0"
    (run,) = log["runs"]
    assert run["columnKind"] == "unicodeCodePoints"
    driver = run["tool"]["driver"]
    assert (driver["name"], driver["version"]) == ("bayleaf", "0.1.0")
    assert [rule["id"] for rule in driver["rules"]] == ["source-missing", "touch-of-live-part", "unused-part"]
    assert driver["rules"][2]["shortDescription"] == {"text": "A part that nothing uses"}
    assert [result["level"] for result in run["results"]] == ["error", "warning", "note"]
    for result in run["results"]:
        assert result["ruleId"] == driver["rules"][result["ruleIndex"]]["id"]
        assert result["message"]["text"]
    live = run["results"][0]
    expected = {
        "physicalLocation": {
            "artifactLocation": {"uri": JOB},
            "region": {"startLine": 2, "startColumn": 4, "endLine": 2, "endColumn": 21},
        }
    }
    assert [expected] == live["locations"]
    assert [related["id"] for related in live["relatedLocations"]] == [1, 2]
    assert live["relatedLocations"][0]["message"] == {"text": "the highest voltage, 410 V"}
    assert live["properties"] == {"class": "danger", "data": {"circuit": "traction", "path": ["start", "step 1"]}}


def test_sarif_paths_are_uri_references():
    """A space in a path is escaped (RFC 3986)."""
    finding = Finding("r", Place("a b/ü.yml", 1, 1, 1, 2), "m")

    assert '"uri": "a%20b/%C3%BC.yml"' in report_sarif((finding,), "1")
