"""A photo that a file names does not exist.

## Why it matters

The reader would see an empty frame where the picture should have shown which plug is meant. The letters
must agree exactly: a web server and Linux tell `Plug.jpg` from `plug.jpg`, though the computer it was
written on may not.

## Fails

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo: photos/vehicle.jpg  # <- the photo `photos/vehicle.jpg` does not exist
```

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo: ../../../vehicle.jpg  # <- the photo `../../../vehicle.jpg` lies outside of `procedures`
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the vehicle.
    on: nothing
```

A photo that exists is shown file by file in the tests.

## Source

The format of the files, version 1: a photo lies beside the file that names it, or in a folder beside it.
"""

import posixpath
import re
from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model.common import Photo
from ...model.procedure import Procedure
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault

KIND = "form"
SEVERITY = "error"

_ELSEWHERE = re.compile(r"[a-zA-Z][a-zA-Z0-9+.-]*:|/|~")


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The photos of the steps."""
    for photo in procedure.photos:
        if not _exists(photo, procedure.folder, case):
            yield from _about(photo, procedure.folder, case)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The photos of the vehicle and of its elements."""
    for photo in vehicle.photos:
        if not _exists(photo, vehicle.folder, case):
            yield from _about(photo, vehicle.folder, case)


def _exists(photo: Photo, folder: str, case: Case) -> bool:
    """Whether the photo is there, as nearly every one is. A path with `..` in it is looked at more closely."""
    beside, _, name = f"procedures/{folder}/{photo.file}".rpartition("/")
    return case.outlook.entries(beside).get(name, False)


def _about(photo: Photo, folder: str, case: Case) -> Iterator[Fault]:
    written = photo.file
    at = photo.file_at
    if "\\" in written:
        help_ = f"write `{written.replace(chr(92), '/')}`, which every system understands"
        yield Fault(at, f"the photo `{written}` is written with a backslash", help=help_)
        return
    if _ELSEWHERE.match(written):
        help_ = "put the picture beside this file, and write its name, such as `photos/plug.jpg`"
        yield Fault(at, f"the photo `{written}` does not lie beside this file", help=help_)
        return
    path = posixpath.normpath(f"procedures/{folder}/{written}")
    if not path.startswith("procedures/"):
        because = "only pictures of the manual go with it when it is copied"
        help_ = "put the picture beside this file, in a folder such as `photos`"
        yield Fault(at, f"the photo `{written}` lies outside of `procedures`", because, help_)
        return
    yield from _missing(at, written, path, case)


def _missing(at: tuple[str | int, ...], written: str, path: str, case: Case) -> Iterator[Fault]:
    """Follows the path folder by folder, comparing names letter by letter."""
    folder, *parts = path.split("/")
    for part in parts:
        there = case.outlook.entries(folder)
        if part not in there:
            alike = next((name for name in there if name.casefold() == part.casefold()), None)
            meant = alike or nearest(part, there)
            help_ = f"did you mean `{meant}`?" if meant else f"put the picture into `{posixpath.dirname(path)}`"
            if alike:
                help_ = f"write `{alike}`: names of files are told apart by capital and small letters"
            yield Fault(at, f"the photo `{written}` does not exist", help=help_)
            return
        folder = f"{folder}/{part}"
    if not case.outlook.entries(posixpath.dirname(path))[posixpath.basename(path)]:
        yield Fault(at, f"the photo `{written}` is a folder", help="name a picture in it")
