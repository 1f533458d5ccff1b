"""`bayleaf render`: what is in a site and what is not, and what it does to the folder that it writes to."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.site.folder import MARK, listing
from kit import PLACES, PROCEDURE, RECORD, write_manual

DAY = ("--today", "2026-11-01")
PHOTO = bytes.fromhex("ffd8ffe000104a46494600010100000100010000ffd9")
BROKEN = {PLACES["procedure"]: PROCEDURE + "    time: 5 Nm\n"}
BANNER = "Do not work by this page."


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A manual with photos, a record, a free page and its drawing; the current folder is in it."""
    files: dict[str, str | bytes] = {
        PLACES["record"]: RECORD,
        "procedures/test-van/photos/plug.jpg": PHOTO,
        "procedures/test-van/photos/PLUG.PNG": PHOTO,
        "procedures/book/bay.md": "# The bay\n\nSee [the job](../test-van/job.yml).\n",
        "procedures/book/plan.svg": '<svg xmlns="http://www.w3.org/2000/svg"/>',
        "procedures/test-van/notes.txt": "Free notes\n",
    }
    folder = write_manual(tmp_path / "manual", files)
    monkeypatch.chdir(folder)
    return folder


def contents(folder: Path) -> dict[str, bytes]:
    """The files of a site."""
    return {name: (folder / name).read_bytes() for name in listing(folder)}


def pages(site: Path) -> dict[str, str]:
    """The pages of a site."""
    return {name: data.decode("utf-8") for name, data in contents(site).items() if name.endswith(".html")}


def test_sources_records_and_photos_are_not_published(manual: Path) -> None:
    """A photo as the camera wrote it names the place and the hour; a record names a job."""
    assert 0 == run(["render", *DAY])
    names = listing(manual / "site")
    assert [] == [name for name in names if name.lower().endswith((".yml", ".yaml", ".jpg", ".png", ".md"))
                  and not name.startswith("assets/")]  # fmt: skip
    assert [] == [name for name, text in contents(manual / "site").items() if PHOTO in text]
    assert {"book/bay.html", "book/plan.svg", "test-van/notes.txt", "test-van/job.html", MARK} <= set(names)


def test_rendering_twice_gives_the_same_bytes(manual: Path) -> None:
    """Nothing in a site depends on the hour or on the run: each is one of its own, with other hashes."""
    sites = []
    for seed in ("1", "2"):
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        subprocess.run([sys.executable, "-m", "bayleaf", "render", *DAY], env=environment, check=True)
        sites.append(contents(manual / "site"))
    dated = {"sitemap.xml", "sitemap.xml.gz"}
    assert [] == [name for name in sites[0] if sites[0][name] != sites[1].get(name) and name not in dated]
    assert list(sites[0]) == list(sites[1])


def test_with_errors_every_page_is_marked(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Free pages too: a page that looks sound may lead to one that is not."""
    write_manual(manual, BROKEN)
    assert 1 == run(["render", "--with-errors", *DAY])
    assert "job.yml:10:13  error, form" in capsys.readouterr().out
    found = pages(manual / "site")
    assert {"404.html"} == {name for name, text in found.items() if BANNER not in text}


def test_without_errors_no_page_is_marked(manual: Path) -> None:
    """The mark means something."""
    run(["render", "--with-errors", *DAY])
    assert [] == [name for name, text in pages(manual / "site").items() if BANNER in text]


def test_the_last_good_site_stays_to_the_byte(manual: Path) -> None:
    """Errors, a broken configuration, a fault in the middle: what was rendered last is as it was, times included."""
    run(["render", *DAY])
    site = manual / "site"
    before = {name: ((site / name).read_bytes(), (site / name).stat().st_mtime_ns) for name in listing(site)}
    write_manual(manual, BROKEN)
    assert 1 == run(["render", *DAY])
    write_manual(manual, {PLACES["procedure"]: PROCEDURE, "mkdocs.yml": "site_name: [\n"})
    assert 2 == run(["render", *DAY])
    after = {name: ((site / name).read_bytes(), (site / name).stat().st_mtime_ns) for name in listing(site)}
    assert before == after
    assert [] == [path.name for path in manual.iterdir() if path.name.startswith(".")]


def test_a_fault_in_the_middle_leaves_the_last_good_site(
    manual: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Half a site is never seen, and nothing of it is left lying about."""
    run(["render", *DAY])
    before = contents(manual / "site")

    def fail(*_: object) -> None:
        raise ZeroDivisionError("planted")

    monkeypatch.setattr("bayleaf.pages.all.procedure_body", fail)
    assert run(["render", *DAY]) in (2, 70)
    assert "planted" in capsys.readouterr().err
    assert before == contents(manual / "site")
    assert [] == [path.name for path in manual.iterdir() if path.name.startswith(".")]


def test_a_stale_file_disappears(manual: Path) -> None:
    """The folder is replaced as a whole, so that a page of yesterday cannot be found by an old bookmark."""
    run(["render", *DAY])
    (manual / "site" / "test-van" / "yesterday.html").write_text("old", encoding="utf-8")
    run(["render", *DAY])
    assert not (manual / "site" / "test-van" / "yesterday.html").exists()


def test_output_and_manual_may_lie_anywhere(
    manual: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """From another folder, into another one; the manual's own `site` is not touched."""
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    assert 0 == run(["render", "--manual", "../manual", "--output", "made/site", *DAY])
    made = tmp_path / "elsewhere" / "made" / "site"
    assert f"The manual is {made / 'index.html'}" in capsys.readouterr().out
    assert (made / "test-van" / "job.html").is_file()
    assert not (manual / "site").exists()


def _folder(manual: Path) -> Path:
    (manual / "mine").mkdir()
    (manual / "mine" / "diary.txt").write_text("mine", encoding="utf-8")
    return manual / "mine"


def _hidden(manual: Path) -> Path:
    (manual / "mine").mkdir()
    (manual / "mine" / ".settings").write_text("mine", encoding="utf-8")
    return manual / "mine"


def _file(manual: Path) -> Path:
    (manual / "mine").write_text("mine", encoding="utf-8")
    return manual / "mine"


FOREIGN = {
    "a folder with a file": _folder,
    "a folder with a hidden file": _hidden,
    "a file": _file,
    "the manual itself": lambda manual: manual,
    "the folder around it": lambda manual: manual.parent,
    "the procedures": lambda manual: manual / "procedures",
    "a folder among the procedures": lambda manual: manual / "procedures" / "site",
    "the records": lambda manual: manual / "records",
}


@pytest.mark.parametrize("make", FOREIGN.values(), ids=FOREIGN)
def test_what_is_somebodys_own_is_refused_and_left_alone(
    manual: Path, capsys: pytest.CaptureFixture[str], make
) -> None:
    """Exit code 2, a sentence, and not a byte is changed."""
    target = make(manual)
    before = contents(manual.parent)
    assert 2 == run(["render", "--output", str(target), *DAY])
    printed = capsys.readouterr()
    assert printed.err.startswith("bayleaf: ")
    assert str(target) in printed.err
    assert "Traceback" not in printed.err
    assert before == contents(manual.parent)


def test_an_empty_folder_is_taken(manual: Path) -> None:
    """Nothing can be lost in it."""
    (manual / "made").mkdir()
    assert 0 == run(["render", "--output", "made", *DAY])
    assert (manual / "made" / "index.html").is_file()


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="who is root may write everywhere")
def test_a_folder_that_cannot_be_written_is_told(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2 and the reason of the system."""
    locked = manual / "locked"
    locked.mkdir(mode=0o500)
    assert 2 == run(["render", "--output", str(locked / "site"), *DAY])
    assert "cannot be written" in capsys.readouterr().err


def test_what_the_disk_refuses_is_told_in_a_sentence(
    manual: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A full disk is not a fault of the program: exit code 2, what could not be written, and why."""
    real = open

    def refuse(file: object, mode: str = "r", *rest: object, **more: object) -> object:
        if "w" in mode and str(file).endswith("job.html"):
            raise OSError(28, "No space left on device", str(file))
        return real(file, mode, *rest, **more)  # type: ignore[call-overload]

    monkeypatch.setattr("builtins.open", refuse)
    assert 2 == run(["render", *DAY])
    said = capsys.readouterr().err
    assert "job.html: No space left on device" in said
    assert "Traceback" not in said
    assert not (manual / "site").exists()
