"""Photos that tests use: all are drawn here."""

import struct
from collections.abc import Callable
from functools import cache
from io import BytesIO

from PIL import Image, ImageCms, ImageDraw
from PIL.PngImagePlugin import PngInfo
from PIL.TiffImagePlugin import IFDRational


def encoded(image: Image.Image, form: str = "JPEG", **more: object) -> bytes:
    """A picture as the bytes of a file."""
    stream = BytesIO()
    image.save(stream, form, **more)
    return stream.getvalue()


def corners(width: int = 640, height: int = 480) -> Image.Image:
    """A picture whose corners tell how it lies: red, green, blue, white from the upper left, clockwise."""
    image = Image.new("RGB", (width, height), "grey")
    draw = ImageDraw.Draw(image)
    x, y = width // 2, height // 2
    for box, colour in (((0, 0, x, y), "red"), ((x, 0, width, y), "lime"),
                        ((x, y, width, height), "blue"), ((0, y, x, height), "white")):  # fmt: skip
        draw.rectangle(box, fill=colour)
    return image


@cache
def plug() -> bytes:
    """A JPEG, 640 wide and 480 high."""
    return encoded(corners(), quality=85)


#: The files that the pages of the rules name in their examples, below `photos/`.
PHOTOS: dict[str, Callable[[], bytes]] = {
    "plug.jpg": plug,
    "from-a-phone.jpg": lambda: b"\0\0\0\x24ftypheic\0\0\0\0mif1heic" + bytes(400),
    "note.jpg": lambda: b"The plug is behind the flap in the left sill.\n",
    "drawing.pdf": lambda: b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n" + bytes(100),
    "cut-off.jpg": lambda: plug()[: len(plug()) // 2],
    "huge.png": lambda: encoded(Image.new("1", (9000, 8000)), "PNG"),
}


#: What a phone writes into a photo beside the picture: place, owner, notes of the maker. The first are 52° 31′ 48.1234″.
PLACE = struct.pack("<6I", 52, 1, 31, 1, 481234, 10000)
SECRETS = (PLACE, b"SECRET-MAKER", b"SECRET-OWNER", b"SECRET-STREET", b"SECRET-PROFILE", b"SECRET-REMARK")
_XMP = (
    b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    b'<rdf:Description xmlns:exif="http://ns.adobe.com/exif/1.0/" exif:GPSLatitude="52,31.8N" '
    b'Iptc4xmpCore:Location="SECRET-STREET"/></rdf:RDF></x:xmpmeta>'
)


def _exif(orientation: int = 1) -> bytes:
    """Exif 2.32 as a phone writes it; the notes of the maker and the place lie in folders of their own."""
    exif = Image.Exif()
    exif.endian = "<"
    exif[0x0112] = orientation
    exif[0x010F], exif[0x0110] = "SECRET-MAKER", "SECRET-MAKER X1"
    exif[0x013B] = "SECRET-OWNER"
    exif.get_ifd(0x8769)[0x927C] = b"SECRET-MAKER notes" * 3
    place = exif.get_ifd(0x8825)
    place[1], place[2] = "N", (52.0, 31.0, IFDRational(481234, 10000))
    place[3], place[4] = "E", (13.0, 24.0, IFDRational(1, 1))
    return exif.tobytes()


def _profile() -> bytes:
    """A profile of colours that names its owner; its colours are those of every screen."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    return profile + b"SECRET-PROFILE"


def from_a_phone(orientation: int = 1, image: Image.Image | None = None) -> bytes:
    """A JPEG with everything that a phone writes into one."""
    return encoded(
        image or corners(),
        quality=90,
        exif=_exif(orientation),
        xmp=_XMP,
        comment=b"SECRET-REMARK",
        icc_profile=_profile(),
    )


def png_with_everything() -> bytes:
    """A PNG with Exif, text in three forms and a profile."""
    texts = PngInfo()
    texts.add_text("Author", "SECRET-OWNER")
    texts.add_text("Comment", "SECRET-REMARK", zip=True)
    texts.add_itxt("XML:com.adobe.xmp", _XMP.decode("ascii"))
    return encoded(corners(), "PNG", exif=_exif(), pnginfo=texts, icc_profile=_profile())


def webp_with_everything() -> bytes:
    """A WebP with Exif, XMP and a profile."""
    return encoded(corners(), "WEBP", exif=_exif(), xmp=_XMP, icc_profile=_profile())


#: For each value of the orientation, on which sides its first row and its first column are seen. Source: Exif 2.32, tag 0x0112.
SEEN = {
    1: ("top", "left"), 2: ("top", "right"), 3: ("bottom", "right"), 4: ("bottom", "left"),
    5: ("left", "top"), 6: ("right", "top"), 7: ("right", "bottom"), 8: ("left", "bottom"),
}  # fmt: skip


def stored(upright: Image.Image, orientation: int) -> Image.Image:
    """The picture as a camera that was held so stores it, pixel by pixel."""
    row, column = SEEN[orientation]
    on_its_side = row in ("left", "right")
    width, height = upright.size
    made = Image.new("RGB", (height, width) if on_its_side else (width, height))
    for r in range(made.height):
        for c in range(made.width):
            x, y = (r, c) if on_its_side else (c, r)
            x = width - 1 - x if "right" in (row, column) else x
            y = height - 1 - y if "bottom" in (row, column) else y
            made.putpixel((c, r), upright.getpixel((x, y)))
    return made
