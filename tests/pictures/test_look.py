"""What a picture file is, whatever its name says; and whether it is whole."""

import pytest
from bayleaf.pictures.kinds import kind_of
from bayleaf.pictures.look import look
from hypothesis import given, settings
from hypothesis import strategies as st
from photo_kit import corners, encoded, from_a_phone, plug
from PIL import Image

HEADS = [
    (b"\xff\xd8\xff\xe0\0\x10JFIF", "JPEG"), (b"\x89PNG\r\n\x1a\n\0\0", "PNG"), (b"RIFF\x10\0\0\0WEBPVP8 ", "WebP"),
    (b"\0\0\0\x18ftypheic\0\0\0\0", "HEIC"), (b"\0\0\0\x18ftypmif1\0\0\0\0", "HEIC"), (b"\0\0\0\x1cftypavif", "AVIF"),
    (b"\0\0\0\x18ftypqt  ", "film"), (b"\0\0\0\x20ftypisom", "film"), (b"GIF89a", "GIF"), (b"BM\x36\0\0\0\0\0\0\0\x36", "BMP"), (b"BMS: battery management system\n", "text"),
    (b"II*\0\x08\0\0\0", "TIFF or raw"), (b"MM\0*\0\0\0\x08", "TIFF or raw"), (b"%PDF-1.7", "PDF"), (b"PK\x03\x04", "ZIP"),
    (b"version https://git-lfs.github.com/spec/v1\n", "Git LFS"), (b"<!DOCTYPE html><html>", "web page"),
    (b"\xef\xbb\xbf<svg xmlns=''>", "SVG"), (b"Behind the flap.\n", "text"), ("Hinter der Klappe, links\u00fc".encode()[:-1], "text"),
    (b"", "empty"), (b"\0\1\2\3\4\5", "unknown"), (b"RIFF\x10\0\0\0WAVEfmt ", "unknown"),
]  # fmt: skip


@pytest.mark.parametrize(("head", "kind"), HEADS)
def test_kind_is_told_by_the_first_bytes(head: bytes, kind: str) -> None:
    """Pictures, what is taken for pictures, and what a failed download leaves."""
    assert kind == kind_of(head)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("part", [0.02, 0.3, 0.7, 0.98])
def test_a_picture_that_is_cut_off_is_broken(form: str, part: float) -> None:
    """At its head, in the middle, and just before its end."""
    image = Image.effect_mandelbrot((300, 200), (-2, -1, 1, 1), 60).convert("RGB")
    whole = encoded(image, form)

    assert None is look(whole).trouble
    assert "broken" == look(whole[: int(len(whole) * part)]).trouble


@given(at=st.integers(2, 3000), byte=st.integers(0, 255), extra=st.binary(max_size=30))
@settings(deadline=None, max_examples=150)
def test_no_bytes_end_the_program(at: int, byte: int, extra: bytes) -> None:
    """A picture with a byte changed and some put in is whole, broken or too large, and never the end of the run."""
    data = plug()
    at = min(at, len(data) - 1)
    assert look(data[:at] + bytes([byte]) + extra + data[at + 1 :]).trouble in (None, "broken", "large")


SIZES = [
    ((8160, 6120), None),  # 50 megapixels, the most that phones take unless they are told otherwise (common practice)
    ((9000, 8000), "large"), ((20001, 3), "large"), ((12000, 9000), "large"), ((30000, 9000), "large"),
]  # fmt: skip


@pytest.mark.parametrize(("size", "trouble"), SIZES)
def test_a_picture_of_far_too_many_pixels_is_not_opened(size: tuple[int, int], trouble: str | None) -> None:
    """A small file may hold one: the head tells how large it is."""
    data = encoded(Image.new("1", size), "PNG")

    assert len(data) < 100_000
    assert trouble == look(data, is_whole=True).trouble


@pytest.mark.parametrize("orientation", range(1, 9))
def test_width_and_height_are_those_of_the_upright_picture(orientation: int) -> None:
    """So that call-outs are counted on what the author sees."""
    seen = look(from_a_phone(orientation, corners(64, 48)))

    assert ((48, 64) if orientation > 4 else (64, 48)) == (seen.width, seen.height)
