"""Photos in a site: what is published of them, by both paths, in the zip, in a sheet, and without a network."""

import json
import re
import zipfile
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.manual import load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.pages.all import all_pages
from bayleaf.pages.photos import SCRIPT
from bayleaf.pictures.album import KEPT_IN
from bayleaf.site.facts import facts_of
from bayleaf.site.folder import listing
from kit import PLACES, PROCEDURE, VEHICLE, write_manual
from photo_kit import SECRETS, from_a_phone, plug, png_with_everything

DAY = ("--today", "2026-11-01")
PHOTO_OF_STEP = """\
    photo:
      file: photos/flap.jpg
      shows: The flap & the "latch"
      callouts:
        - at: 0, 0
          text: Latch <up>
        - at: 320, 240
          text: Flap
"""
OTHERS = [
    ("name: Test van\n", "name: Test van\nphoto: photos/van.png\n"),
    (
        "    secure_with: Padlock in the receptacle\n",
        "    secure_with: Padlock in the receptacle\n    photo: photos/plug.jpg\n",
    ),
    ("  X7:\n    name: Heater HV plug\n", "  X7:\n    name: Heater HV plug\n    photo: photos/plug.jpg\n"),
    ("    highest_test_voltage: 1000 V\n", "    highest_test_voltage: 1000 V\n    photo: photos/plug.jpg\n"),
]


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A manual with a photo wherever one may be; the current folder is in it."""
    profile = VEHICLE
    for old, new in OTHERS:
        assert profile.count(old) == 1
        profile = profile.replace(old, new)
    van = "procedures/test-van"
    files: dict[str, str | bytes] = {
        PLACES["procedure"]: PROCEDURE + PHOTO_OF_STEP,
        PLACES["vehicle"]: profile,
        f"{van}/photos/flap.jpg": from_a_phone(6),
        f"{van}/photos/van.png": png_with_everything(),
        f"{van}/photos/plug.jpg": plug(),
    }
    folder = write_manual(tmp_path / "manual", files)
    monkeypatch.chdir(folder)
    return folder


def named_pictures(site: Path) -> set[str]:
    """The published files that pages name."""
    texts = [(site / name).read_text("utf-8") for name in listing(site) if name.endswith(".html")]
    return {found for text in texts for found in re.findall(r"assets/photos/[^\s\",]+(?:jpg|webp)", text)}


def test_pictures_are_published_and_originals_are_not(manual: Path) -> None:
    """Every picture that a page names is there, no other; nothing that a phone wrote is in any file, zip and sheet included."""
    for copy in ("photos/plug.jpg.bak", "photos/plug", "copies/notes.txt"):
        (manual / "procedures/test-van" / copy).parent.mkdir(exist_ok=True)
        (manual / "procedures/test-van" / copy).write_bytes(plug())
    assert 0 == run(["render", "--zip", "--sheet", "test-van/job", *DAY])
    site = manual / "site"
    pictures = {name for name in listing(site) if name.startswith("assets/photos/") and name.count("/") == 2}

    assert pictures == named_pictures(site)
    assert 2 * (1 + 2 + 2) == len(pictures)  # in two forms; the one that is 480 wide has one size, the others two
    originals = [path.read_bytes() for path in (manual / "procedures/test-van/photos").iterdir()]
    with zipfile.ZipFile(manual / "out/manual.zip") as packed:
        files = {f"zip/{name}": packed.read(name) for name in packed.namelist()}
    files |= {name: (site / name).read_bytes() for name in listing(site)}
    files["sheet"] = (manual / "out/test-van-job.html").read_bytes()
    assert [] == [(name, one) for name, data in files.items() for one in SECRETS if one in data]
    assert [] == [name for name, data in files.items() if data in originals]
    assert {f"zip/{name}" for name in pictures} <= set(files)


def test_both_paths_write_the_same_bytes(manual: Path, tmp_path: Path) -> None:
    """`mkdocs build` and `render`, pictures included."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    loaded = load_manual(manual)
    open_shell(manual / "mkdocs.yml", all_pages(loaded), loaded.findings, facts_of(loaded)).write(tmp_path / "direct")
    config = load_config(str(manual / "mkdocs.yml"), site_dir=str(tmp_path / "built"))
    config.plugins.on_startup(command="build", dirty=False)
    build(config)

    names = [name for name in listing(tmp_path / "direct") if name.startswith(("assets/photos", "test-van"))]
    assert names == [name for name in listing(tmp_path / "built") if name.startswith(("assets/photos", "test-van"))]
    assert 10 == sum(name.endswith((".webp", ".jpg")) for name in names)
    differing = [
        name for name in names if (tmp_path / "direct" / name).read_bytes() != (tmp_path / "built" / name).read_bytes()
    ]
    assert [] == differing


def test_pictures_can_be_read_without_a_network(manual: Path) -> None:
    """The list of the service worker holds each."""
    run(["render", *DAY])
    text = (manual / "site/sw.js").read_text("utf-8")
    kept = json.loads(text[text.index("{") : text.index("};") + 1])

    assert named_pictures(manual / "site") <= set(kept)


def test_a_sheet_holds_its_pictures(manual: Path) -> None:
    """As data, at once, with nothing to be fetched, and with the script that enlarges."""
    run(["render", "--sheet", "test-van/job", *DAY])
    text = (manual / "out/test-van-job.html").read_text("utf-8")

    (image,) = re.findall(r"<img\b[^>]*>", text)
    assert 'src="data:image/jpeg;base64,' in image
    assert "srcset" not in image and "loading" not in image and "<source" not in text
    assert "assets/photos/" not in text
    assert "bl-photo-large" in text


def test_a_page_keeps_the_place_of_its_picture_free(manual: Path) -> None:
    """Width and height as it is seen upright, texts escaped, numbers at their places, loaded when it is scrolled to."""
    run(["render", *DAY])
    page = (manual / "site/test-van/job.html").read_text("utf-8")
    (image,) = re.findall(r"<img\b[^>]*bl-|<img\b[^>]*srcset[^>]*>", page)

    assert 'width="480" height="640"' in image  # stored 640 by 480, on its side
    assert 'alt="The flap &amp; the &#34;latch&#34;"' in image
    assert 'loading="lazy"' in image
    assert ["0.10%", "66.77%"] == re.findall(r"--x:([^;]*);", page)
    assert ["0.08%", "37.58%"] == re.findall(r"--y:([^\"]*)\"", page)
    assert "<span>Latch &lt;up&gt;</span>" in page


def test_every_photo_of_a_profile_is_on_its_page(manual: Path) -> None:
    """The vehicle, an isolation point, a connector and a part; without words, the alternative says of what it is."""
    run(["render", *DAY])
    page = (manual / "site/test-van/vehicle.html").read_text("utf-8")

    expected = ["Photo: Test van", "Photo: Traction service plug", "Photo: Heater HV plug", "Photo: Cabin heater"]
    assert expected == re.findall(r'alt="(Photo: [^"]*)"', page)


def test_a_photo_that_cannot_be_shown_is_said(manual: Path) -> None:
    """Rendered in spite of errors, its texts stand there all the same."""
    (manual / "procedures/test-van/photos/flap.jpg").write_bytes(b"no picture")
    assert 1 == run(["render", "--with-errors", *DAY])
    page = (manual / "site/test-van/job.html").read_text("utf-8")

    assert "The photo photos/flap.jpg cannot be shown." in page
    assert "Latch &lt;up&gt;" in page


def test_a_picture_that_is_no_longer_whole_ends_the_rendering_in_a_sentence(
    manual: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The last good site stays."""
    from bayleaf.pictures import convert

    def fail(*_: object) -> None:
        raise OSError(5, "the stick was pulled", "flap.jpg")

    monkeypatch.setattr(convert, "converted", fail)
    assert 2 == run(["render", *DAY])
    said = capsys.readouterr().err
    assert "the stick was pulled" in said and "Traceback" not in said
    assert not (manual / "site").exists()


def test_only_a_page_with_a_photo_has_the_script_for_it(manual: Path) -> None:
    """Also where the photo is in a step of what is performed, however deep, and where procedures perform each other."""
    inner = "procedures/test-van/inner.yml"
    texts = {
        "outer": ("middle", ""), "middle": ("inner", ""), "inner": ("outer", PHOTO_OF_STEP), "alone": ("alone", ""),
    }  # fmt: skip
    for name, (callee, photo) in texts.items():
        text = PROCEDURE.replace("test-van/job", f"test-van/{name}") + photo + f"  - perform: test-van/{callee}\n"
        (manual / inner).with_stem(name).write_text(text, encoding="utf-8")
    pages = {page.url: page for page in all_pages(load_manual(manual))}
    has = {name: SCRIPT in pages[f"test-van/{name}.html"].scripts for name in (*texts, "job", "isolate")}

    assert {"outer": True, "middle": True, "inner": True, "job": True, "alone": False, "isolate": False} == has


def test_the_preview_makes_a_picture_when_it_is_looked_at(manual: Path) -> None:
    """Opening a page makes none; asking for one makes it, once."""
    loaded = load_manual(manual)
    shell = open_shell(manual / "mkdocs.yml", all_pages(loaded), loaded.findings)
    page = shell.page_html("test-van/job.html")
    assert not (manual / KEPT_IN).exists()

    (name, *_) = re.findall(r"assets/photos/[^\s\",]+webp", page)
    data = shell.asset(name)
    assert data is not None and data[8:12] == b"WEBP"
    assert data == shell.asset(name)
    assert len(list((manual / KEPT_IN).iterdir())) == 2
