"""What is published of a photo: upright, in several sizes, and nothing but the picture."""

import os
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from bayleaf.pictures.album import KEPT_IN, Album
from bayleaf.pictures.convert import converted
from bayleaf.pictures.look import look
from bayleaf.pictures.published import names, sizes
from bayleaf.pictures.seen import Seen
from hypothesis import given
from hypothesis import strategies as st
from photo_kit import (
    SECRETS,
    corners,
    encoded,
    from_a_phone,
    plug,
    png_with_everything,
    stored,
    webp_with_everything,
)  # fmt: skip
from PIL import Image

WITH_EVERYTHING = (from_a_phone, png_with_everything, webp_with_everything)
#: Marks of the places in a file where something beside the picture could be.
PLACES_FOR_MORE = (b"Exif", b"EXIF", b"eXIf", b"tEXt", b"zTXt", b"iTXt", b"ICC_PROFILE", b"iCCP", b"ICCP", b"XMP ", b"http:", b"Photoshop")  # fmt: skip


def opened(data: bytes) -> Image.Image:
    """A picture from the bytes of a file."""
    return Image.open(BytesIO(data))


@pytest.mark.parametrize("make", WITH_EVERYTHING)
def test_nothing_but_the_picture_is_published(make: Callable[[], bytes]) -> None:
    """Neither place nor owner, camera, notes of the maker, remarks or a profile; nor a place where they could be."""
    original = make()
    made = converted(original, look(original))
    info = {name: opened(data).info for name, data in made.items()}

    in_the_open = [one for one in SECRETS if one in original]
    assert len(in_the_open) >= 3  # a PNG may hold the others compressed, or in the order of its own numbers
    assert [] == [(name, one) for name, data in made.items() for one in (*SECRETS, *PLACES_FOR_MORE) if one in data]
    assert [] == [name for name, data in made.items() if opened(data).getexif()]
    assert set() == {key for one in info.values() for key in one} & {
        "exif",
        "xmp",
        "icc_profile",
        "comment",
        "photoshop",
    }


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_comes_out_upright(orientation: int) -> None:
    """Pixel by pixel what the camera saw, within what compression changes."""
    upright = corners(96, 64)
    original = from_a_phone(orientation, stored(upright, orientation))

    for data in converted(original, look(original)).values():
        seen = opened(data).convert("RGB")
        assert (96, 64) == seen.size
        for place in ((20, 15), (75, 15), (75, 50), (20, 50), (40, 5), (5, 28)):
            far = max(abs(a - b) for a, b in zip(seen.getpixel(place), upright.getpixel(place), strict=True))
            assert far < 40, (orientation, place, seen.getpixel(place), upright.getpixel(place))


OTHERS = {
    "seen through": (lambda: encoded(Image.new("RGBA", (40, 30), (0, 0, 0, 0)), "PNG"), (255, 255, 255)),
    "16 bits of grey": (lambda: encoded(Image.new("I;16", (40, 30), 40000), "PNG"), (156, 156, 156)),
    "printers' colours": (lambda: encoded(Image.new("CMYK", (40, 30), (0, 0, 0, 255))), (0, 0, 0)),
    "a palette": (lambda: encoded(Image.new("RGB", (40, 30), (200, 30, 40)).quantize(4), "PNG"), (200, 30, 40)),
    "black and white": (lambda: encoded(Image.new("1", (40, 30), 1), "PNG"), (255, 255, 255)),
}


@pytest.mark.parametrize(("make", "colour"), OTHERS.values(), ids=OTHERS)
def test_other_ways_to_hold_colours_come_out_as_they_look(make: Callable[[], bytes], colour: tuple[int, ...]) -> None:
    """What is seen through is white, as the paper below it."""
    original = make()
    for data in converted(original, look(original)).values():
        assert max(abs(a - b) for a, b in zip(opened(data).convert("RGB").getpixel((20, 15)), colour, strict=True)) < 8


@given(st.integers(1, 20_000), st.integers(1, 20_000))
def test_sizes_keep_the_shape_and_are_never_larger(width: int, height: int) -> None:
    """Each has the shape of the original to a pixel, none is wider than 1600 or twice as high, and they rise."""
    found = sizes(Seen("x", "JPEG", 1, width, height))

    assert found
    assert sorted(set(found)) == list(found)
    for size in found:
        assert 1 <= size.width <= min(width, 1600)
        assert 1 <= size.height <= min(height, 3200)
        assert abs(size.width * height - size.height * width) <= max(width, height)


def test_a_phone_and_a_tablet_find_their_sizes() -> None:
    """Three widths of what a phone takes, each in both forms; of a small one what there is."""
    large, small = Seen("d" * 16, "JPEG", 1, 4032, 3024), Seen("d" * 16, "JPEG", 1, 640, 480)

    assert [(480, 360), (960, 720), (1600, 1200)] == list(sizes(large))
    assert [(480, 360), (640, 480)] == list(sizes(small))
    assert 6 == len(set(names(large)))


def test_the_same_photo_gives_the_same_bytes_under_the_same_names() -> None:
    """Wherever and whenever; another photo has other names."""
    one, other = plug(), encoded(corners(320, 240))

    assert converted(one, look(one)) == converted(one, look(one))
    assert not set(names(look(one))) & set(names(look(other)))


def test_a_photo_is_converted_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Kept between runs; what was made of a photo that changed goes away; a lost folder is made again."""
    calls: list[int] = []
    monkeypatch.setattr("bayleaf.pictures.convert.converted", lambda *given: calls.append(1) or converted(*given))
    (tmp_path / "a.jpg").write_bytes(plug())

    def all_of(album: Album) -> list[bytes]:
        seen = album.seen("a.jpg")
        assert seen is not None
        return [album.file("a.jpg", name) for name in names(seen)]

    first = all_of(Album(tmp_path))
    assert first == all_of(Album(tmp_path))
    assert 1 == len(calls)
    assert sorted(os.listdir(tmp_path / KEPT_IN)) == sorted(names(look(plug())))

    (tmp_path / "a.jpg").write_bytes(encoded(corners(320, 240)))
    all_of(Album(tmp_path))
    assert 2 == len(calls)
    assert sorted(os.listdir(tmp_path / KEPT_IN)) == sorted(names(look(encoded(corners(320, 240)))))


def test_where_nothing_can_be_kept_pictures_are_made_all_the_same(tmp_path: Path) -> None:
    """A file in the place of the folder."""
    (tmp_path / "a.jpg").write_bytes(plug())
    (tmp_path / ".bayleaf").write_text("in the way", encoding="utf-8")
    album = Album(tmp_path)

    assert all(album.file("a.jpg", name) for name in names(look(plug())))


def test_a_photo_that_changed_in_the_meantime_is_told(tmp_path: Path) -> None:
    """Nothing of another picture is given under a name."""
    (tmp_path / "a.jpg").write_bytes(plug())
    album = Album(tmp_path)
    (name, *_) = names(look(plug()))
    (tmp_path / "a.jpg").write_bytes(b"no picture any more")

    with pytest.raises(OSError, match="changed while it was read"):
        album.file("a.jpg", name)
