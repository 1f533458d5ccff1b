"""A photo has far more pixels than can be shown.

## Why it matters

A tablet shows two to four million pixels. A picture of a hundred million takes gigabytes of memory to be opened, and a small
file may hold one: so it is not opened at all. The picture is made smaller for the page in any case; 12 megapixels of a
phone are plenty, 64 the most that is taken.

## Fails

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo: photos/huge.png  # <- the photo `photos/huge.png` has 9000 × 8000 pixels, which is 72 megapixels
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo: photos/plug.jpg
```

## Source

The format of the files, version 1: at most 64 megapixels, 20 000 pixels along a side, 60 MB. The figures are ours: phones take
12 to 50 megapixels unless they are told otherwise (common practice).
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.vehicle import Vehicle
from ...pictures.seen import MOST_BYTES, Seen
from ..case import Case
from ..fault import Fault
from ._photos import megapixels, photos

KIND = "form"
SEVERITY = "error"

_BECAUSE = "at most 64 megapixels, 20 000 pixels along a side and 60 MB are opened"
_HELP = "take it with 12 megapixels, or make a copy of about 4000 pixels along the long side and name that"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The photos of the steps."""
    yield from _check(procedure, case)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The photos of the profile."""
    yield from _check(vehicle, case)


def _check(model: Procedure | Vehicle, case: Case) -> Iterator[Fault]:
    for photo, seen in photos(model, case):
        if seen.trouble == "large":
            yield Fault(photo.file_at, f"the photo `{photo.file}` has {_much(seen)}", _BECAUSE, _HELP)


def _much(seen: Seen) -> str:
    if seen.size > MOST_BYTES:
        return "more than 60 MB"
    if not seen.width:
        return "more pixels than can be opened"
    return f"{seen.width} × {seen.height} pixels, which is {megapixels(seen)} megapixels"
