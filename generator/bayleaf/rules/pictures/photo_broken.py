"""A photo is damaged or cut off.

## Why it matters

A copy that was broken off, a full card or a bad stick leaves the upper part of a picture, or none. What is missing may be
what the reader has to tell apart.

## Fails

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo: photos/cut-off.jpg  # <- the photo `photos/cut-off.jpg` is damaged or cut off
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo: photos/plug.jpg
```

## Source

ITU-T T.81 (JPEG), ISO/IEC 15948 (PNG), RFC 9649 (WebP), as Pillow reads them. A JPEG that is changed in its middle, but ends
as it should, is not always told from a whole one: look at your pictures.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._photos import photos

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The photos of the steps."""
    yield from _check(procedure, case)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The photos of the profile."""
    yield from _check(vehicle, case)


def _check(model: Procedure | Vehicle, case: Case) -> Iterator[Fault]:
    for photo, seen in photos(model, case):
        if seen.trouble == "broken":
            because = f"it begins like a {seen.kind} picture, but cannot be read to its end; {seen.size} bytes arrived"
            help_ = (
                "copy it again from the phone or the camera, and see that it opens here; if it does not, take it again"
            )
            yield Fault(photo.file_at, f"the photo `{photo.file}` is damaged or cut off", because, help_)
