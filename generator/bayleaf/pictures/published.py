"""In which sizes a photo is published, and under which names."""

from typing import NamedTuple

from .seen import Seen

#: Widths of pictures: half a phone's or a whole small one's, a phone's, a tablet's. None is twice as high as wide.
WIDTHS = (480, 960, 1600)
#: Endings, the one that browsers are to prefer first.
ENDINGS = ("webp", "jpg")
#: Where pictures lie in a site.
FOLDER = "assets/photos"
#: Changes with whatever changes the bytes that are made, so that none is kept under an old name.
_RECIPE = "a"


class Size(NamedTuple):
    """A size in which a picture is published, in pixels."""

    width: int
    height: int


def sizes(seen: Seen) -> tuple[Size, ...]:
    """The sizes of a picture, rising; a small original is never made larger."""
    found = {}
    for width in WIDTHS:
        scale = min(1.0, width / seen.width, 2 * width / seen.height)
        size = Size(max(1, round(seen.width * scale)), max(1, round(seen.height * scale)))
        found[size.width] = size
    return tuple(found.values())


def name_of(digest: str, width: int, ending: str) -> str:
    """The name of a published file: it depends on the original's bytes alone."""
    return f"{digest}{_RECIPE}-{width}.{ending}"


def digest_in(name: str) -> str:
    """The digest of the original in the name of a published file; of another name, nothing that is a digest."""
    return name.partition("-")[0].removesuffix(_RECIPE)


def names(seen: Seen) -> tuple[str, ...]:
    """The names of all that is published of a picture: of one that cannot be shown, none."""
    if seen.trouble is not None:
        return ()
    return tuple(name_of(seen.digest, size.width, ending) for size in sizes(seen) for ending in ENDINGS)
