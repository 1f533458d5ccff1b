"""The photos of a file with what is known of them."""

import posixpath
from collections.abc import Iterator

from ...model.common import Photo
from ...model.procedure import Procedure
from ...model.vehicle import Vehicle
from ...pictures.seen import Seen
from ..case import Case


def photos(model: Procedure | Vehicle, case: Case) -> Iterator[tuple[Photo, Seen]]:
    """Each photo that is there; of one that is not, another rule tells."""
    for photo in model.photos:
        path = photo.path(model.folder)
        beside, name = posixpath.split(path)
        if path.startswith("procedures/") and case.outlook.entries(beside).get(name):
            seen = case.outlook.picture(path)
            if seen is not None:
                yield photo, seen


def megapixels(seen: Seen) -> str:
    """How many pixels a picture has, in millions."""
    return f"{round(seen.width * seen.height / 1_000_000):,}".replace(",", "\u202f")
