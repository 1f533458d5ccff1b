"""The preview keeps what stands around the pages: what it shows after a save is what a fresh start would show."""

from pathlib import Path

import pytest
from bayleaf.commands.preview import _Maker
from bayleaf.manual import ManualKeeper
from bayleaf.site.preview import Preview
from bayleaf.site.shown import shown
from kit import ISOLATION, PLACES, PROCEDURE, VEHICLE, write_manual
from photo_kit import plug

JOB, PROFILE, NOTES = PLACES["procedure"], "procedures/test-van/vehicle.yml", "procedures/book/notes.md"
ISOLATE = "procedures/test-van/isolate.yml"
PAGES = ("index.html", "vehicles.html", "test-van/job.html", "test-van/vehicle.html", "test-van/isolate.briefing.html")

SAVES = (
    (JOB, PROCEDURE.replace("Look at the vehicle.", "Look under the vehicle.")),
    (JOB, PROCEDURE.replace("title: ", "title: Really ", 1)),
    (PROFILE, VEHICLE.replace("name: Test van", "name: Trial van", 1)),
    (PROFILE, VEHICLE.replace("name: Traction DC bus", "name: DC bus", 1)),
    (PROFILE, VEHICLE.replace("name: Traction service plug", "name: Plug below the seat", 1)),
    (PROFILE, VEHICLE.replace("max: 410 V", "max: 420 V", 1)),
    (ISOLATE, ISOLATION.replace("title: ", "titel: ", 1)),
    (JOB, "format: 1\ntitle: [\n"),
    (NOTES, "# Notes\n\nAnother word.\n"),
    (NOTES, "# Another title\n"),
    ("procedures/test-van/other.yml", PROCEDURE.replace("test-van/job", "test-van/other")),
)


def _made(maker: _Maker, changed: tuple[str, ...]) -> Preview:
    made = maker.make(changed)
    assert isinstance(made, Preview), made
    return made


@pytest.mark.parametrize(("file", "text"), SAVES)
def test_what_is_kept_is_what_a_fresh_start_would_show(tmp_path: Path, file: str, text: str) -> None:
    """Pages made, index pages, free pages and new ones; after a save, and when it is taken back."""
    folder = write_manual(tmp_path, {})
    (folder / NOTES).parent.mkdir(exist_ok=True)
    (folder / NOTES).write_text("# Notes\n", encoding="utf-8")
    good = (folder / file).read_bytes() if (folder / file).is_file() else None
    maker = _Maker(folder, True)
    kept = _made(maker, ())
    first = {url: kept.shell.page_html(url) for url in PAGES}

    (folder / file).write_text(text, encoding="utf-8")
    kept, fresh = _made(maker, (file,)), _made(_Maker(folder, True), ())
    urls = (*PAGES, "book/notes.html")
    assert set(fresh.shell.urls) == set(kept.shell.urls)
    assert [] == [url for url in urls if fresh.shell.page_html(url) != kept.shell.page_html(url)]

    if good is None:
        (folder / file).unlink()
    else:
        (folder / file).write_bytes(good)
    kept = _made(maker, (file,))
    assert first == {url: kept.shell.page_html(url) for url in PAGES}


@pytest.mark.parametrize(
    ("file", "expected"),
    [
        (JOB, "test-van/job.html"), (PROFILE, "test-van/vehicle.html"), (NOTES, "book/notes.html"),
        ("procedures/index.md", "index.html"), ("procedures/workshop.yml", "index.html"),
        ("procedures/test-van/Wrong Name.yml", "index.html"), ("procedures/test-van/job.yaml", "index.html"),
        ("procedures/test-van/photo.jpg", None), ("mkdocs.yml", None),
    ],
)  # fmt: skip
def test_every_file_is_seen_on_one_page(tmp_path: Path, file: str, expected: str | None) -> None:
    """What belongs to no page of its own is seen on the home page; what no page shows moves nothing."""
    place = shown(file, ManualKeeper(write_manual(tmp_path, {})).manual())

    assert expected == (place and place.url)


def test_only_the_search_makes_every_page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What else a page asks for, there or not, costs nothing: with a thousand procedures nobody waits for all of them."""
    preview = _made(_Maker(write_manual(tmp_path, {}), stay=False), ())
    made: list[str] = []

    def pieces(_: object) -> dict[str, str]:
        made.append("all")
        return {"search/index.js": "0"}

    monkeypatch.setattr(type(preview.shell), "search_pieces", pieces)

    for url in ("version.js", "sw.js", "assets/job.js", "assets/gone.js", "test-van/job.html", "gone.html"):
        preview.answer(url)
    assert [] == made
    for url in ("search/index.js", "search/k0.js"):
        preview.answer(url)
    assert ["all"] == made


def test_places_in_photos_are_told_in_the_preview_alone(tmp_path: Path) -> None:
    """The sizes of the originals stand on a page with a photo, on no other, and on none of a site."""
    pictured = VEHICLE.replace("    name: Cabin heater\n", "    name: Cabin heater\n    photo: photos/heater.jpg\n", 1)
    folder = write_manual(tmp_path, {PROFILE: pictured, "procedures/test-van/photos/heater.jpg": plug()})
    preview = _made(_Maker(folder, stay=False), ())
    shown = {url: preview.answer(url) for url in PAGES}

    assert all(shown.values())
    assert ["test-van/vehicle.html"] == [url for url, one in shown.items() if one and b"[640, 480]" in one[0]]
    assert [] == [url for url in preview.shell.urls if "bl-place" in preview.shell.page_html(url)]
