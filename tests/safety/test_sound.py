"""Sound procedures that are written in unusual ways: nothing at all is found in them.

Each file in `sound` is one procedure for the vehicle beside it; what it performs lies in `sound/performed`. The first line
says what is unusual about it.
"""

import re
from pathlib import Path

import pytest
from kit import PLACES, PROCEDURE, check, completed

SOUND = Path(__file__).resolve().parent / "sound"
FILES = sorted(path for path in SOUND.glob("*.yml") if path.name != "vehicle.yml")


def read(path: Path) -> str:
    """The text of a file."""
    return path.read_text(encoding="utf-8")


def with_performed(text: str) -> dict[str, str]:
    """A procedure as the job of the small manual, and all that it performs."""
    files = {PLACES["vehicle"]: read(SOUND / "vehicle.yml"), PLACES["procedure"]: completed(text, PROCEDURE)}
    waiting = [text]
    while waiting:
        for name in re.findall(r"perform: test-van/([a-z0-9-]+)", waiting.pop()):
            path, place = SOUND / "performed" / f"{name}.yml", f"procedures/test-van/{name}.yml"
            if path.exists() and place not in files:
                waiting.append(read(path))
                files[place] = completed(read(path), PROCEDURE.replace("test-van/job", f"test-van/{name}"))
    return files


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_nothing_is_found(tmp_path, path: Path) -> None:
    """Every finding here would be a false alarm."""
    manual = check(tmp_path, dict(with_performed(read(path))))

    assert [] == [(one.place.file, one.place.line, one.rule, one.message) for one in manual.findings]


def test_there_are_enough_and_each_says_what_is_unusual() -> None:
    """At least twenty, each with a first line of comment that ends as a sentence."""
    firsts = [read(path).split("\n", 1)[0] for path in FILES]

    assert len(FILES) >= 20
    assert [line for line in firsts if not re.fullmatch(r"# .+[.]", line)] == []


def test_the_vehicle_alone_is_right(tmp_path) -> None:
    """So whatever is found above comes from the procedure."""
    assert () == check(tmp_path, {PLACES["vehicle"]: read(SOUND / "vehicle.yml")}).findings
