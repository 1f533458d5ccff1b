"""Checking again after a save: only what changed is read and walked, and the result is that of reading everything."""

import gc
import os
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from random import Random
from shutil import copytree

import pytest
from bayleaf.manual import Manual, ManualKeeper, load_manual
from bayleaf.manual_files import File
from bayleaf.safety.trace_text import trace_text
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from kit import PLACES, PROCEDURE, TODAY, write_manual
from mistakes.mutations import delete_line, drop_colon, drop_quote, indent, swap_lines
from thinned import some

DEMO = Path(__file__).parent.parent
JOB, PAGE = PLACES["procedure"], PLACES["page"]

#: A free page with a tag of every kind of name.
NOTES = """# Notes

[[energy: test-van traction]]

[[discharge: test-van/isolate 6]]

See [[procedure: test-van/isolate]], [[connector: test-van X7]] and [[code: P0AA6]].
"""


def told(manual: Manual) -> tuple[object, ...]:
    """Everything that anybody can ask of a manual. Maps are told as lists: their order counts."""
    clear = {file for file in manual.files if not any(one.severity == "error" for one in manual.by_file.get(file, ()))}
    traces = {
        name: trace_text(name, surveyor)
        for surveyor in manual.surveyors.values()
        for name in surveyor.procedures
        if {surveyor.procedures[one].file for one in (name, *surveyor.called(name))} <= clear
    }
    maps = (manual.vehicles, manual.procedures, manual.records, manual.facts, traces)
    texts = [(file, manual.text(file)) for file in manual.files]
    return manual.findings, manual.workshop, *map(lambda one: list(one.items()), maps), texts


def _change_text(folder: Path, random: Random) -> None:
    file = random.choice(sorted((*folder.rglob("*.yml"), *folder.rglob("*.md"))))
    change: Callable[[str, Random], str | None] = random.choice(
        (delete_line, swap_lines, indent, drop_colon, drop_quote)
    )
    try:
        text = change(file.read_text("utf-8"), random)
    except IndexError:  # no place for it in this file
        return
    if text is not None:
        file.write_text(text, "utf-8")


def _change_number(folder: Path, random: Random) -> None:
    file = random.choice(sorted((folder / "procedures").rglob("*.yml")))
    lines = file.read_text("utf-8").splitlines(keepends=True)
    places = [at for at, line in enumerate(lines) if any(sign.isdigit() for sign in line)]
    if places:
        at = random.choice(places)
        lines[at] = "".join(str((int(one) + 1) % 10) if one in "0123456789" else one for one in lines[at])
        file.write_text("".join(lines), "utf-8")


def _rename(folder: Path, random: Random) -> None:
    file = random.choice(sorted((folder / "procedures").rglob("*.yml")))
    file.replace(file.with_name(random.choice(("zz-other.yml", "aa-other.yml", f"{file.stem}.yaml"))))


def _new(folder: Path, random: Random) -> None:
    file = random.choice(sorted((folder / "procedures").rglob("*.yml")))
    (file.parent / "new-one.yml").write_bytes(file.read_bytes())


def _delete(folder: Path, random: Random) -> None:
    random.choice(sorted(folder.rglob("*.yml"))[1:] or sorted(folder.rglob("*.yml"))).unlink()


def _new_page(folder: Path, random: Random) -> None:
    page = random.choice(("procedures/notes.md", "procedures/book/a.md", "procedures/test-van/b.markdown"))
    (folder / page).parent.mkdir(parents=True, exist_ok=True)
    (folder / page).write_text(NOTES.replace("X7", random.choice(("X7", "X70", "X1"))), "utf-8")


def _comment(folder: Path, random: Random) -> None:
    file = random.choice(sorted(folder.rglob("*.yml")))
    file.write_text("# a line more\n" + file.read_text("utf-8"), "utf-8")


CHANGES = (
    *(_change_text, _change_text, _change_number, _change_number),
    *(_rename, _new, _delete, _comment, _new_page),
)


def _compared(folder: Path, random: Random, times: int) -> None:
    """Changes the manual again and again; after each change both ways of reading agree."""
    keeper = ManualKeeper(folder)
    keeper.manual(TODAY)
    originals = {file: file.read_bytes() for file in folder.rglob("*.yml")}
    for _ in range(times):
        if random.random() < 0.3:  # the author mends it all
            for file, data in originals.items():
                file.write_bytes(data)
        if any(folder.rglob("*.yml")):
            random.choice(CHANGES)(folder, random)
        assert told(load_manual(folder, TODAY)) == told(keeper.manual(TODAY))


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(seed=st.integers(0, 10**6))
def test_what_is_kept_is_what_reading_anew_would_give(tmp_path_factory: pytest.TempPathFactory, seed: int) -> None:
    """Over the small manual: procedures that perform each other, in any order of slips."""
    _compared(write_manual(tmp_path_factory.mktemp("small"), {PAGE: NOTES}), Random(seed), 6)


@pytest.mark.parametrize("seed", some(range(20), 20))
def test_what_is_kept_of_the_demo_is_the_same(tmp_path: Path, seed: int) -> None:
    """Over the demo, with its three vehicles, its workshop and its records."""
    for part in ("procedures", "records"):
        copytree(DEMO / part, tmp_path / part)
    _compared(tmp_path, Random(seed), 3)


def test_only_what_changed_is_read_and_walked(tmp_path: Path) -> None:
    """A procedure that nobody performs is read, checked and walked alone."""
    keeper = ManualKeeper(write_manual(tmp_path, {}))
    keeper.manual(TODAY)
    (tmp_path / JOB).write_text(PROCEDURE.replace("Look at the vehicle.", "Look under the vehicle."), "utf-8")
    keeper.manual(TODAY)

    assert ([JOB], [JOB], ["test-van/job"]) == (keeper.read, keeper.inspector.checked, keeper.inspector.walked)


def test_nothing_is_taken_anew_where_nothing_changed(tmp_path: Path) -> None:
    """Also where a file was written with the same bytes."""
    keeper = ManualKeeper(write_manual(tmp_path, {}))
    keeper.manual(TODAY)
    os.utime(tmp_path / JOB)
    keeper.manual(TODAY)

    assert ([], [], []) == (keeper.read, keeper.inspector.checked, keeper.inspector.walked)


def test_a_page_is_read_alone_and_checked_again_with_what_it_names(tmp_path: Path) -> None:
    """A change of a free page touches nothing else; a change of a procedure reaches the pages that name it."""
    keeper = ManualKeeper(write_manual(tmp_path, {PAGE: NOTES.replace(" and [[code: P0AA6]]", "")}))
    assert () == keeper.manual(TODAY).findings
    (tmp_path / PAGE).write_text("# Notes\n\n[[procedure: test-van/isolat]]\n", "utf-8")
    found = keeper.manual(TODAY).findings
    assert ([PAGE], [PAGE], []) == (keeper.read, keeper.inspector.checked, keeper.inspector.walked)
    assert [(PAGE, 3)] == [(one.place.file, one.place.line) for one in found]

    (tmp_path / JOB).rename(tmp_path / "procedures/test-van/isolat.yml")
    left = [one.place.file for one in keeper.manual(TODAY).findings]
    assert PAGE in keeper.inspector.checked and PAGE not in left


def test_a_draft_stands_in_the_place_of_the_file_and_leaves_it(tmp_path: Path) -> None:
    """Each draft is judged, not the one before it; without one the file on the disk counts again."""
    keeper = ManualKeeper(write_manual(tmp_path, {}))
    keeper.manual(TODAY)
    drafts = [PROCEDURE.replace("Look at the vehicle.", words) for words in ("Look under it.", "Look behind it.")]

    for draft in drafts:
        assert draft == keeper.manual(TODAY, drafts={File(JOB, "procedure"): draft.encode()}).text(JOB)
    assert PROCEDURE == keeper.manual(TODAY).text(JOB)


def test_what_is_kept_does_not_grow(tmp_path: Path) -> None:
    """Over 80 saves, new names and dates among them, as much is kept as after the first."""
    keeper = ManualKeeper(write_manual(tmp_path, {}))
    job = tmp_path / JOB
    sizes, objects = set(), []
    for count in range(80):
        words = f"Look under the vehicle {count} times."
        job.write_text(PROCEDURE.replace("Look at the vehicle.", words), "utf-8")
        other = job.with_name(f"other-{count}.yml")
        other.write_text(PROCEDURE.replace("test-van/job", f"test-van/{other.stem}"), "utf-8")
        keeper.manual(TODAY + timedelta(days=count % 7))
        sizes.add(keeper.sizes())
        other.unlink()
        if count in (39, 79):
            keeper.manual(TODAY)
            gc.collect()
            objects.append(len(gc.get_objects()))

    assert 1 == len(sizes), sizes
    assert objects[1] - objects[0] < 40  # fewer than one a save
