"""`bayleaf compute`: what it prints, what it writes, and what it refuses."""

import json
import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from bayleaf.calculations.formula import Formula, all_formulas
from bayleaf.commands import run

NOWHERE = Path("no/such/folder/x.svg")
CALL = ["compute", "discharge", "R=47kohm", "C=1.1mF", "from=410V", "to=60V"]

PRINTED = """\
Time in which a capacitor discharges (discharge)
t = R · C · ln(U₀ / U)

  Resistance that discharges (R)   47 kΩ = 47000 Ω
  Capacitance (C)                  1.1 mF = 0.0011 F
  Voltage at the start (from)      410 V
  Voltage at the end (to)          60 V

  Time                             99.36 s
  Energy at the start              92.46 J
  Energy that is left              1.98 J

Valid:    One resistance and one capacitance that do not change, and nothing that charges again.
          Never replaces a reading.
Source:   Charge law of a capacitor with Ohm's law; any textbook of circuit theory
"""


def test_a_formula_with_values(capsys: pytest.CaptureFixture[str]) -> None:
    """Law, inputs as they were understood, results, validity, source. R·C·ln(410/60) by hand: 51.7 s · 1.92181."""
    assert 0 == run(CALL)
    assert PRINTED == capsys.readouterr().out


def test_a_comma_and_two_words_and_a_default(capsys: pytest.CaptureFixture[str]) -> None:
    """The same result; what holds by default is marked."""
    assert 0 == run(["compute", "discharge", "R=47", "kohm", "C=1,1mF", "from=410V"])

    printed = capsys.readouterr().out
    assert "99.36 s" in printed
    assert "60 V   by default" in printed


@pytest.mark.parametrize("formula", all_formulas(), ids=lambda one: one.slug)
def test_a_formula_alone_is_described(formula: Formula, capsys: pytest.CaptureFixture[str]) -> None:
    """Names, titles, units, defaults, choices, law, validity, source, example with its results."""
    assert 0 == run(["compute", *formula.name.split()])

    printed = " ".join(capsys.readouterr().out.split())
    for one in formula.inputs:
        assert one.title in printed and (one.unit in printed) and (one.default or "") in printed
        assert [choice for choice in one.choices if choice not in printed] == []
    for text in (formula.title, formula.law, formula.valid, formula.source, f"bayleaf compute {formula.slug}"):
        assert " ".join(text.split()) in printed


def test_alone_it_lists_all_formulas(capsys: pytest.CaptureFixture[str]) -> None:
    """By family, with titles."""
    assert 0 == run(["compute"])

    printed = capsys.readouterr().out
    assert [one.slug for one in all_formulas() if f"  {one.slug} " not in printed or one.title not in printed] == []
    assert "Capacitors\n  discharge " in printed


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (["dischage", "R=1"], "there is no calculation `dischage`; did you mean discharge?"),
        (["discharge", "r=3"], "but no `r`; did you mean R?"),
        (["discharge", "R=47kohm", "C=1.1mF"], 'needs from (Voltage at the start); write "from=410 V"'),
        (["discharge", "R=47", "C=1mF", "from=3V"], "`47` has no unit"),
        (["discharge", "R=47V", "C=1mF", "from=3V"], "is a voltage, but a resistance is expected"),
        (["discharge", "R=0ohm", "C=1mF", "from=3V"], "resistance is 0.0; it has to be above 0"),
        (["R=3"], "the name of the formula comes first"),
        (["stored-energy", "C=1mF", "at=10V", "--plot"], "stored-energy has no curve"),
        ([*CALL[1:5], "to=0V", "--plot"], "no curve of discharge can be drawn with these values"),
        ([*CALL[1:], "--plot", "--format", "json"], "leave out one of them"),
        (["discharge", "--plot"], "go with a formula and its values"),
        (["--format", "json"], "go with a formula and its values"),
        ([*CALL[1:], "--format", "xml"], "'xml' is not one of"),
        ([*CALL[1:], "--svg", str(NOWHERE)], f"{NOWHERE}: No such file or directory"),
    ],
)
def test_a_mistake_ends_with_2_and_one_sentence(call: list[str], says: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Said on standard error; nothing is computed."""
    code = run(["compute", *call])

    printed = capsys.readouterr()
    assert 2 == code
    assert says in printed.err and "" == printed.out
    assert "Traceback" not in printed.err


def test_results_as_data(capsys: pytest.CaptureFixture[str]) -> None:
    """Numbers in the unit of the formula, with the text that is shown; what has no end is null."""
    assert 0 == run([*CALL[:5], "to=0V", "--format", "json"])

    found = json.loads(capsys.readouterr().out)
    assert ["formula", "inputs", "results", "law", "valid", "source"] == list(found)
    assert {"name": "R", "value": 47000.0, "unit": "Ω", "text": "47 kΩ = 47000 Ω"} == found["inputs"][0]
    assert {"title": "Time", "value": None, "unit": "s", "text": "endless"} == found["results"][0]
    assert found["results"][1]["value"] == pytest.approx(92.455)


def test_the_curve_on_the_console(capsys: pytest.CaptureFixture[str]) -> None:
    """With its axes and in words; it falls from left to right."""
    assert 0 == run([*CALL, "--plot"])

    drawn = capsys.readouterr().out.partition("Source:")[2]
    assert "Voltage in V" in drawn and "Time in s" in drawn
    assert drawn.rstrip().endswith("Voltage over time: from 410 V at 0 s to 22.95 V at 149 s")
    rows = [line for line in drawn.splitlines() if "|" in line or "+ " in line]
    firsts = [len(row) - len(row.rstrip("| ")) for row in rows]
    assert 15 < len(rows) and firsts[0] > firsts[-3]
    assert not any(len(line) > 100 for line in drawn.splitlines())


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437", "utf-8"])
def test_every_console_shows_it_piped(encoding: str) -> None:
    """Letters stand for signs that a console lacks; the curve is drawn with plain signs in a pipe."""
    environment = {**os.environ, "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"}

    done = subprocess.run([sys.executable, "-m", "bayleaf", *CALL, "--plot"], env=environment, capture_output=True)

    assert 0 == done.returncode, done.stderr
    printed = done.stdout.decode(encoding)
    assert "99.36 s" in printed and "\x1b" not in printed
    assert "*" in printed.partition("Source:")[2]


def test_the_curve_as_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An SVG that stands alone: with its size, its style, and words for whoever does not see it."""
    file = tmp_path / "curve.svg"

    assert 0 == run([*CALL, "--svg", str(file)])

    assert f"The curve is in {file}" in capsys.readouterr().out
    root = ET.fromstring(file.read_bytes())
    space = "{http://www.w3.org/2000/svg}"
    assert f"{space}svg" == root.tag and {"width", "height", "viewBox"} <= set(root.attrib)
    assert "stroke" in (root.findtext(f"{space}style") or "")
    assert "Voltage over time: from 410 V at 0 s to 22.95 V at 149 s" == root.findtext(f"{space}desc")
    assert 10 == len(list(root.iter(f"{space}path")))
