"""Photos on pages: the picture in several sizes with its numbers, the texts beside it, and the files that it needs."""

from collections.abc import Iterable, Mapping
from functools import partial
from typing import NamedTuple

from markupsafe import Markup

from ..model.actions import Perform
from ..model.common import Photo
from ..model.procedure import Procedure
from ..pictures.album import Album
from ..pictures.published import ENDINGS, FOLDER, name_of, names, sizes
from ..pictures.seen import Seen
from .body import Picture, Script
from .templating import macro

#: Enlarges a photo at a tap; without it a photo is a link to its largest size.
SCRIPT = Script("assets/photos.js")

#: A photo is at most so wide on a page, as `photos.css` has it, and on a phone as wide as the page.
_SHOWN_AT = "(max-width: 740px) 92vw, 680px"
_TYPES = {"webp": "image/webp", "jpg": "image/jpeg"}


class CalloutView(NamedTuple):
    """A number on a picture, its place in hundredths of width and height, and its text."""

    number: int
    x: str
    y: str
    text: str


class PhotoView(NamedTuple):
    """What the template of a photo needs. Addresses are relative to the page.

    `sets` are pairs of a type and what `srcset` holds, the one to be preferred first; the last is that of `middle`, a
    size that does everywhere, and of `largest`. `width` and `height` keep its place free while it is loaded.
    """

    sets: tuple[tuple[str, str], ...]
    middle: str
    largest: str
    width: int
    height: int
    shown_at: str
    alt: str
    caption: str | None
    callouts: tuple[CalloutView, ...]


def photo_figure(photo: Photo | None, folder: str, of: str, album: Album) -> Markup:
    """A photo with its numbers and their texts; nothing without one. `of` is what it belongs to, in words.

    Of a photo that cannot be shown only the texts stand there, and that it is missing.
    """
    if photo is None:
        return Markup("")
    seen = album.seen(photo.path(folder))
    if seen is None or not names(seen):
        return Markup(macro("photo", "missing")(photo))
    return Markup(macro("photo", "photo")(_view(photo, seen, f"Photo: {of}")))


def pictures_of(photos: Iterable[Photo], folder: str, album: Album) -> tuple[Picture, ...]:
    """The files that are published of photos."""
    found = []
    for path in dict.fromkeys(photo.path(folder) for photo in photos):
        seen = album.seen(path)
        for name in names(seen) if seen is not None else ():
            found.append(Picture(f"{FOLDER}/{name}", partial(album.file, path, name)))
    return tuple(found)


def shows_photos(procedure: Procedure, procedures: Mapping[str, Procedure]) -> bool:
    """Whether a photo is on the page of a procedure: in its own steps, or in those of what it performs."""
    todo, known = [procedure], {procedure.id}
    while todo:
        one = todo.pop()
        if one.photos:
            return True
        for step in one.steps:
            callee = procedures.get(step.action.procedure) if isinstance(step.action, Perform) else None
            if callee is not None and callee.id not in known:
                known.add(callee.id)
                todo.append(callee)
    return False


def _view(photo: Photo, seen: Seen, alt: str) -> PhotoView:
    made = sizes(seen)
    sets = []
    for ending in ENDINGS:
        files = (f"../{FOLDER}/{name_of(seen.digest, size.width, ending)} {size.width}w" for size in made)
        sets.append((_TYPES[ending], ", ".join(files)))
    last = ENDINGS[-1]
    middle, largest = (f"../{FOLDER}/{name_of(seen.digest, size.width, last)}" for size in (made[-2:][0], made[-1]))
    return PhotoView(
        tuple(sets), middle, largest, made[-1].width, made[-1].height, _SHOWN_AT, photo.shows or alt, photo.shows,
        tuple(
            CalloutView(number, _hundredths(one.x, seen.width), _hundredths(one.y, seen.height), one.text)
            for number, one in enumerate(photo.callouts, 1)
        ),
    )  # fmt: skip


def _hundredths(place: int, length: int) -> str:
    """The middle of a pixel along a side; of one beyond it, the end of the side."""
    return f"{min(100.0, 100 * (place + 0.5) / length):.2f}%"
