"""Photos that tests use: all are drawn here."""

from collections.abc import Callable
from functools import cache
from io import BytesIO

from PIL import Image, ImageDraw


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
