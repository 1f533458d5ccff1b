"""Makes what is published of a photo: upright, in several sizes, as WebP and JPEG, and nothing but pixels.

A phone writes into a photo where it was taken, when and with what (Exif, XMP, notes of the maker, a profile with a
name, a small picture of what was cut away). So nothing is taken out of the original: its pixels are put into a new one.
"""

from io import BytesIO

from PIL import Image, ImageCms, ImageOps

from .look import FORMATS
from .published import ENDINGS, name_of, sizes
from .seen import Seen


def converted(data: bytes, seen: Seen) -> dict[str, bytes]:
    """Every file that is published of a picture that has no trouble, by its name. Raises OSError of a broken one."""
    all_sizes = sizes(seen)
    image = Image.open(BytesIO(data), formats=FORMATS)
    longest = max(all_sizes[-1])
    image.draft("RGB", (longest, longest))
    whole = _plain(ImageOps.exif_transpose(image))
    made = {}
    for size in all_sizes:
        small = whole.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0)
        small.info.clear()
        for ending in ENDINGS:
            made[name_of(seen.digest, size.width, ending)] = _encoded(small, ending)
    return made


def _encoded(image: Image.Image, ending: str) -> bytes:
    stream = BytesIO()
    if ending == "webp":
        image.save(stream, "WEBP", quality=78, method=4, exif=b"", xmp=b"", icc_profile=b"")
    else:
        image.save(stream, "JPEG", quality=80, optimize=True, progressive=True, comment=b"")
    return stream.getvalue()


def _plain(image: Image.Image) -> Image.Image:
    """The picture in three colours as every screen shows them, on white where it was seen through."""
    if image.mode.startswith("I"):  # 16 bits of grey, of which Pillow would keep the brightest
        image = image.point(lambda grey: grey * (1 / 256)).convert("L")
    if image.has_transparency_data:
        seen_through = image.convert("RGBA")
        white = Image.new("RGBA", image.size, "white")
        plain = Image.alpha_composite(white, seen_through).convert("RGB")
        plain.info = dict(image.info)
        image = plain
    return _in_srgb(image)


def _in_srgb(image: Image.Image) -> Image.Image:
    """The colours that the picture's own profile means; a profile that cannot be used changes nothing."""
    profile = image.info.get("icc_profile")
    if profile and image.mode in ("RGB", "L", "CMYK"):
        try:
            own = ImageCms.ImageCmsProfile(BytesIO(profile))
            turned = ImageCms.profileToProfile(image, own, ImageCms.createProfile("sRGB"), outputMode="RGB")
            return turned if turned is not None else image.convert("RGB")
        except (ImageCms.PyCMSError, OSError):
            pass
    return image.convert("RGB")
