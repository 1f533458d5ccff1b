"""`bayleaf render --zip`, `--sheet`, `--pdf`: what is made beside the site, in `out/`."""

import zipfile
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.site import chromium
from bayleaf.site.folder import listing
from kit import PLACES, PROCEDURE, write_manual

DAY = ("--today", "2026-11-01")
BROKEN = {PLACES["procedure"]: PROCEDURE + "    time: 5 Nm\n"}


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A manual with one procedure; the current folder is in it."""
    folder = write_manual(tmp_path / "manual", {"procedures/book/é bay.md": "# The bay\n"})
    monkeypatch.chdir(folder)
    return folder


def test_the_zip_unpacks_to_the_files_of_the_site(manual: Path, tmp_path: Path) -> None:
    """All of them, to the byte, names beyond ASCII included."""
    assert 0 == run(["render", "--zip", *DAY])
    with zipfile.ZipFile(manual / "out/manual.zip") as made:
        made.extractall(tmp_path / "stick")

    site = manual / "site"
    assert "book/é bay.html" in listing(site)
    assert listing(site) == listing(tmp_path / "stick")
    assert [] == [
        name for name in listing(site) if (site / name).read_bytes() != (tmp_path / "stick" / name).read_bytes()
    ]


def test_the_same_manual_gives_the_same_zip(manual: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever the day of the build: a copy on a stick can be compared."""
    found = []
    for day in ("2026-11-01", "2027-02-03"):
        monkeypatch.setattr("mkdocs.structure.pages.get_build_date", lambda day=day: day)
        run(["render", "--zip", *DAY])
        found.append((manual / "out/manual.zip").read_bytes())

    assert found[0] == found[1]


def test_the_zip_holds_the_site_that_was_asked_for(manual: Path) -> None:
    """With `--output` too."""
    assert 0 == run(["render", "--zip", "--output", "made", *DAY])
    with zipfile.ZipFile(manual / "out/manual.zip") as made:
        assert list(listing(manual / "made")) == made.namelist()
    assert not (manual / "site").exists()


@pytest.mark.parametrize("name", ["test-van/job", "procedures/test-van/job.yml", "test-van/job.html"])
def test_a_sheet_is_named_by_id_by_file_or_by_page(manual: Path, capsys: pytest.CaptureFixture[str], name: str) -> None:
    """It alone is made: the site stays as it is."""
    assert 0 == run(["render", "--sheet", name, *DAY])
    assert f"The sheet is {manual / 'out/test-van-job.html'}" in capsys.readouterr().out
    assert ["test-van-job.html"] == [path.name for path in (manual / "out").iterdir()]
    assert not (manual / "site").exists()


@pytest.mark.parametrize("option", ["--sheet", "--pdf"])
def test_a_procedure_that_is_not_there_is_told_before_anything_is_made(
    manual: Path, capsys: pytest.CaptureFixture[str], option: str
) -> None:
    """With the nearest name that is there."""
    assert 2 == run(["render", "--sheet", "test-van/job", option, "test-van/jobb", *DAY])
    assert "there is no procedure test-van/jobb. Did you mean test-van/job?" in capsys.readouterr().err
    assert not (manual / "out").exists()


@pytest.mark.parametrize("options", [("--zip",), ("--sheet", "test-van/job"), ("--pdf",), ("--pdf", "test-van/job")])
def test_with_errors_nothing_is_made(manual: Path, options: tuple[str, ...]) -> None:
    """A wrong procedure is not carried to the vehicle on paper either."""
    write_manual(manual, BROKEN)
    assert 1 == run(["render", *options, *DAY])
    assert not (manual / "out").exists()


def test_a_sheet_with_errors_is_marked(manual: Path) -> None:
    """Where it is asked for in spite of them."""
    write_manual(manual, BROKEN)
    assert 1 == run(["render", "--sheet", "test-van/job", "--with-errors", *DAY])
    assert "Do not work by this page." in (manual / "out/test-van-job.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("options", [("--pdf",), ("--pdf", "test-van/job")])
def test_without_a_browser_that_prints_the_reason_is_told(
    manual: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], options: tuple[str, ...]
) -> None:
    """Exit code 2, what to install, and how to name it."""
    monkeypatch.setattr(chromium, "_candidates", lambda: iter([None]))
    assert 2 == run(["render", *options, *DAY])
    said = capsys.readouterr().err
    assert "Chromium, Chrome or Edge" in said and "BAYLEAF_BROWSER" in said
    assert [] == list(manual.glob("out/*"))


def test_a_browser_that_fails_is_told_in_a_sentence(
    manual: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """And the last paper stays."""
    (manual / "out").mkdir()
    (manual / "out/test-van-job.pdf").write_text("last", encoding="utf-8")
    monkeypatch.setattr(chromium, "_candidates", lambda: iter([str(tmp_path / "no-browser")]))
    assert 2 == run(["render", "--pdf", "test-van/job", *DAY])
    assert "could not print" in capsys.readouterr().err
    assert "last" == (manual / "out/test-van-job.pdf").read_text(encoding="utf-8")
