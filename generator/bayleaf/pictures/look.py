"""Looks at a picture file: what it is, how large, and whether it is whole."""

import warnings
from io import BytesIO

from PIL import Image, WebPImagePlugin  # noqa: F401  importing makes it known to `Image`

from .kinds import SHOWN, kind_of
from .seen import LONGEST_SIDE, MOST_BYTES, MOST_PIXELS, Seen, digest_of

#: Pillow's names of the kinds that are shown. Several pictures in one file, as some cameras write, are a JPEG to it.
FORMATS = ("JPEG", "PNG", "WEBP")

_ORIENTATION = 0x0112
#: The values by which the picture is to be turned by a quarter (Exif 2.32, tag 0x0112).
_ON_ITS_SIDE = (5, 6, 7, 8)


def look(data: bytes, is_whole: bool = False) -> Seen:
    """What is known of these bytes. `is_whole` where they were taken apart once already without a fault."""
    digest, kind, size = digest_of(data), kind_of(data[:512]), len(data)
    if kind not in SHOWN:
        return Seen(digest, kind, size, trouble="kind")
    width = height = 0
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of its size, which is judged here
            image = Image.open(BytesIO(data), formats=FORMATS)
            width, height = upright(image)
            if width * height > MOST_PIXELS or max(width, height) > LONGEST_SIDE or size > MOST_BYTES:
                return Seen(digest, kind, size, width, height, "large")
            if not is_whole:
                image.draft("RGB", (max(1, width // 8), max(1, height // 8)))  # reads all of it, and keeps an eighth
                image.load()
    except Image.DecompressionBombError:
        return Seen(digest, kind, size, trouble="large")
    except Exception:  # whatever Pillow or a codec says of bytes that make no picture
        return Seen(digest, kind, size, width, height, "broken")
    return Seen(digest, kind, size, width, height)


def upright(image: Image.Image) -> tuple[int, int]:
    """Width and height of a picture as it is seen."""
    width, height = image.size
    return (height, width) if image.getexif().get(_ORIENTATION) in _ON_ITS_SIDE else (width, height)
