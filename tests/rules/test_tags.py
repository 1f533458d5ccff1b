"""Tags of free pages that lead nowhere: what is told, where, and how it is mended."""

from pathlib import Path

import pytest
from bayleaf.manual import Manual
from kit import PLACES, PROCEDURE, VEHICLE, check

PAGE = PLACES["page"]
HEAD = "# Notes\n\nÄ: "


def found(manual: Manual) -> list[tuple[str, str, str | None]]:
    """Rule, marked text and help of every finding, all of them in the third line of the page."""
    line = (manual.text(PAGE) or "").split("\n")[2]
    assert {(PAGE, 3)} >= {(one.place.file, one.place.line) for one in manual.findings}
    return [(one.rule, line[one.place.column - 1 : one.place.end_column - 1], one.help) for one in manual.findings]


@pytest.mark.parametrize(
    ("tag", "rule", "marked", "help_"),
    [
        ("[[vehicle: test-vann]]", "tag-leads-nowhere", "test-vann", "did you mean `test-van`?"),
        ("[[vehicle: 7]]", "tag-leads-nowhere", "7", "the vehicles are: `test-van`"),
        ("[[procedure: isolate]]", "tag-leads-nowhere", "isolate", "write `test-van/isolate`"),
        ("[[procedure: test-van/isolat]]", "tag-leads-nowhere", "test-van/isolat", "did you mean `test-van/isolate`?"),
        ("[[procedure: test-van/job.yml]]", "tag-leads-nowhere", "test-van/job.yml", "write `test-van/job`, without"),
        ("[[step: test-van/isolate 9]]", "tag-leads-nowhere", "9", "write the id or the number"),
        ("[[step: test-vam/isolate 1]]", "tag-leads-nowhere", "test-vam/isolate", "did you mean `test-van/isolate`?"),
        ("[[code: P0AA6]]", "tag-leads-nowhere", "P0AA6", "write it under `codes`"),
        ("[[rule: unknown-kei]]", "tag-leads-nowhere", "unknown-kei", "did you mean `unknown-key`?"),
        ("[[connector: test-van x7]]", "tag-leads-nowhere", "x7", "write `X7`: names are told apart"),
        (
            "[[connector: test-van cabin-heater]]",
            "tag-leads-nowhere",
            "cabin-heater",
            "there `cabin-heater` is the name of a part",
        ),
        ("[[part: test-van cabin-heatr]]", "tag-leads-nowhere", "cabin-heatr", "did you mean `cabin-heater`?"),
        (
            "[[circuit: test-van nonsense-9]]",
            "tag-leads-nowhere",
            "nonsense-9",
            "add it to `procedures/test-van/vehicle.yml`",
        ),
        ("[[isolation point: test-van plug]]", "tag-leads-nowhere", "plug", "add it to"),
        ("[[cable: test-van loom]]", "tag-leads-nowhere", "loom", "add it to"),
        (
            "[[fastener: test-van heater-bracke]]",
            "tag-leads-nowhere",
            "heater-bracke",
            "did you mean `heater-bracket`?",
        ),
        ("[[Energy: test-van]]", "tag-not-known", "Energy", "did you mean `energy`?"),
        ("[[photograph: test-van]]", "tag-not-known", "photograph", "the tags are: energy, face"),
        ("[[code: ]]", "tag-incomplete", "[[code: ]]", "write `[[code: P0A0D]]`"),
        ("[[energy: test-van a b]]", "tag-incomplete", "[[energy: test-van a b]]", "or `[[energy: VEHICLE CIRCUIT]]`"),
        ("[[flow: test-van/job]]", "drawing-within-text", "[[flow: test-van/job]]", "on a line of its own"),
    ],
)
def test_what_is_told(tmp_path: Path, tag: str, rule: str, marked: str, help_: str) -> None:
    """One finding, under the name that leads nowhere."""
    told = found(check(tmp_path, {PAGE: f"{HEAD}{tag}\n"}))

    assert [(rule, marked)] == [one[:2] for one in told]
    assert help_ in (told[0][2] or "")


@pytest.mark.parametrize(
    ("tag", "marked"),
    [
        ("[[face: test-van X1]]", "X1"),
        ("[[discharge: test-van supply-12]]", "supply-12"),
        ("[[discharge: test-van heater-coolant]]", "heater-coolant"),
        ("[[discharge: test-van/isolate 2]]", "2"),
    ],
)
def test_what_cannot_be_drawn_is_told(tmp_path: Path, tag: str, marked: str) -> None:
    """Instead of an empty place on the page."""
    told = found(check(tmp_path, {PAGE: f"# Notes\n\n{tag}\n"}))

    assert [("nothing-to-draw", marked)] == [one[:2] for one in told]


def test_a_profile_without_circuits_has_no_map(tmp_path: Path) -> None:
    """A trailer that holds no energy."""
    folder = "procedures/handcart/vehicle.yml"
    files = {folder: "format: 1\nvehicle: handcart\nname: Handcart\n", PAGE: "# Notes\n\n[[energy: handcart]]\n"}
    told = [one for one in check(tmp_path, files).findings if one.place.file == PAGE]

    assert ["nothing-to-draw"] == [one.rule for one in told]


def test_what_cannot_be_read_is_told_once(tmp_path: Path) -> None:
    """Where the profile or the procedure has a fault of form, the page is not blamed for what may stand there."""
    files = {
        PAGE: "# Notes\n\n[[connector: test-van X7]] [[step: test-van/job late]]\n",
        PLACES["vehicle"]: "format: 1\nvehicle: *test\n",
        PLACES["procedure"]: PROCEDURE + "  - id: late\n    nonsense: here\n",
    }
    manual = check(tmp_path, {key: text for key, text in files.items() if key != PLACES["vehicle"]})

    assert [PLACES["procedure"]] == list(dict.fromkeys(one.place.file for one in manual.findings))


def test_a_page_of_any_ending_and_depth_is_checked(tmp_path: Path) -> None:
    """As MkDocs takes it; what begins with a dot belongs to nobody."""
    pages = ("index.md", "book/a/b.markdown", "test-van/notes.MD", ".drafts/x.md", "book/.x.md", "test-van/notes.txt")
    manual = check(tmp_path, {f"procedures/{name}": "[[vehicle: nobody-knows]]" for name in pages})

    assert ["procedures/book/a/b.markdown", "procedures/index.md", "procedures/test-van/notes.MD"] == [
        one.place.file for one in manual.findings
    ]


def test_a_name_taken_out_of_the_profile_is_told_where_a_page_has_it(tmp_path: Path) -> None:
    """The page is checked again although only the profile has changed."""
    text = "# Notes\n\nThe [[cable: test-van ground-strap]].\n"
    assert () == check(tmp_path, {PAGE: text}).findings

    manual = check(tmp_path, {PAGE: text, PLACES["vehicle"]: VEHICLE.replace("ground-strap", "earth-strap")})
    assert [("tag-leads-nowhere", "ground-strap", "did you mean `earth-strap`?")] == found(manual)
