"""A picture in the folder `photos` is named by no file.

## Why it matters

It is not published, so nobody sees it: either a `photo:` was forgotten, or the picture can go. Pictures that lie about are
also where somebody's number plate or yard goes along when the manual is copied.

## Fails

A profile beside a folder `photos` that holds `old-plug.jpg`, where no file of the manual holds that name: the advice names up
to three pictures. It is shown file by file in the tests.

## Passes

The same where any YAML file of the manual holds the name, be it in a remark, or where one names a picture that is not there
and may be meant: then that is told.

## Source

Good practice of ours.
"""

import re
from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...loading.text import Fault as Unread
from ...loading.text import decode
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault

KIND = "practice"
SEVERITY = "advice"

_ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif", ".avif", ".gif", ".bmp", ".tif", ".tiff")
#: The last part of what is written as a picture's name, in small letters.
_NAME = re.compile(r"[^\s/\"']+\.(?:jpe?g|png|webp|heic|heif|avif|gif|bmp|tiff?)")
_SHOWN = 3


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The folder `photos` beside the profile."""
    lying = case.outlook.entries(f"procedures/{vehicle.folder}/photos")
    left = sorted(name for name, is_file in lying.items() if is_file and _is_picture(name))
    misspelt: set[str] = set()
    for text in _texts(vehicle, case):
        if not left:
            return
        text = text.casefold()
        misspelt |= set(_NAME.findall(text))
        left = [name for name in left if name.casefold() not in text]
    misspelt -= {name.casefold() for name in lying}
    left = [name for name in left if nearest(name.casefold(), misspelt) is None]  # another rule tells of it
    if left:
        shown = ", ".join(f"`{name}`" for name in left[:_SHOWN])
        more = f" and {len(left) - _SHOWN} more" if len(left) > _SHOWN else ""
        verb = "is" if len(left) == 1 else "are"
        help_ = "name it with `photo:` where it helps, or take it out of the folder"
        yield Fault(("vehicle",), f"{shown}{more} in the folder `photos` {verb} named by no file", help=help_)


def _is_picture(name: str) -> bool:
    """Whether a file is one; what begins with a dot is a system's note."""
    return name.lower().endswith(_ENDINGS) and not name.startswith(".")


def _texts(vehicle: Vehicle, case: Case) -> Iterator[str]:
    """The texts of the manual: the profile's first, then those beside it, then those of other vehicles.

    Texts and not models, so that a file that cannot be read to its end takes no picture from where it is used.
    """
    own = f"procedures/{vehicle.folder}"
    folders = ["procedures/" + name for name, is_file in case.outlook.entries("procedures").items() if not is_file]
    files = [vehicle.file]
    for folder in (own, *sorted(folders)):
        files += [f"{folder}/{name}" for name in sorted(case.outlook.entries(folder)) if name.endswith(".yml")]
    for file in dict.fromkeys(files):
        data = case.outlook.text(file)
        text = decode(data)
        yield data.decode("utf-8", "replace") if isinstance(text, Unread) else text
