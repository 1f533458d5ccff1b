"""The manual as a whole: what is kept of its files, and how a place in them is found again."""

import gc
from pathlib import Path

import pytest
from bayleaf import manual as module
from bayleaf.loading.load import load
from bayleaf.loading.tree import Source
from bayleaf.manual import Manual, load_manual, without_collector
from kit import PLACES, PROCEDURE, TODAY, check, write_manual

JOB = PLACES["procedure"]


@pytest.mark.usefixtures("reading_anew")
def test_no_nodes_are_kept(tmp_path: Path) -> None:
    """They take thirty times the room of a file; of a manual without findings, none is left."""
    gc.collect()
    before = sum(isinstance(one, Source) for one in gc.get_objects())
    manual = check(tmp_path, {})
    gc.collect()
    assert 4 == len(manual.sources)
    assert before == sum(isinstance(one, Source) for one in gc.get_objects())


def test_what_tests_remember_of_a_file_is_what_reading_it_gives(demo: Manual) -> None:
    """`conftest.py` has no file read twice: that holds while reading depends on nothing else, and nobody changes it."""
    assert module.load is not load
    for file in demo.files:
        data, kind = demo.sources._files[file]
        remembered, anew = module.load(file, data, kind), load(file, data, kind)
        assert (anew.model, anew.findings) == (remembered.model, remembered.findings), file
        assert repr(anew.model) == repr(remembered.model), file


def test_a_place_is_found_in_a_file_that_is_read_again(tmp_path: Path) -> None:
    """Also under a key that was misspelt and put right, which is known only once the file was judged."""
    manual = check(tmp_path, {JOB: PROCEDURE.replace("title:", "titel:")})
    source = manual.sources[JOB]
    assert (3, 8) == (source.place(("title",)).line, source.place(("title",)).column)
    assert source is manual.sources[JOB]


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (PROCEDURE, PROCEDURE),
        ("\ufeff" + PROCEDURE, PROCEDURE),
        (PROCEDURE.replace("\n", "\r\n"), PROCEDURE.replace("\n", "\r\n")),
        ("title: Prüfung\n".encode("latin-1"), "title: Pr\ufffdfung\n"),
        (b"\0\1\2", "\0\1\2"),
    ],
)
def test_the_text_of_a_file_is_what_the_report_shows(tmp_path: Path, data: str | bytes, expected: str) -> None:
    """As it was read, or as far as it can be shown."""
    assert expected == check(tmp_path, {JOB: data}).text(JOB)


def test_of_a_file_that_is_not_here_there_is_no_text(tmp_path: Path) -> None:
    """The report then shows no line."""
    assert check(tmp_path, {}).text("procedures/test-van/gone.yml") is None


@pytest.mark.parametrize("was_on", [True, False])
def test_the_collector_is_left_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, was_on: bool) -> None:
    """After reading, and after reading that failed: whoever reads a manual inside a program of his own sees nothing."""
    folder = write_manual(tmp_path, {})
    states = []

    def fail(*_: object) -> None:
        states.append(gc.isenabled())
        raise ZeroDivisionError

    (gc.enable if was_on else gc.disable)()
    try:
        load_manual(folder, TODAY)
        states.append(gc.isenabled())
        monkeypatch.setattr(module, "load", fail)
        with pytest.raises(ZeroDivisionError):
            load_manual(folder, TODAY)
        states.append(gc.isenabled())
        with without_collector(), without_collector():
            states.append(gc.isenabled())
        states.append(gc.isenabled())
    finally:
        gc.enable()
    assert [was_on, False, was_on, False, was_on] == states
