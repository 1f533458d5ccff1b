"""A numbered call-out lies outside of its picture.

## Why it matters

The number would stand beside the picture or at its edge, and the reader would take something else for what is meant. Places
are counted in pixels of the original, from the left and from the top, as the picture is seen upright. So the numbers no
longer fit when the picture was turned, cut or made smaller after they were written.

## Fails

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo:
      file: photos/plug.jpg
      callouts:
        - at: 120, 80
          text: Latch
        - at: 900, 80  # <- call-out 2 at 900, 80 lies outside of the picture, which is 640 wide and 480 high
          text: Lever
```

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo:
      file: photos/plug.jpg
      callouts:
        - at: 400, 600  # <- call-out 1 at 400, 600 lies outside of the picture, which is 640 wide and 480 high
          text: Latch
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    photo:
      file: photos/plug.jpg
      callouts:
        - at: 120, 80
          text: Latch
```

## Source

The format of the files, version 1.
"""

from collections.abc import Iterator

from ...model.common import Callout
from ...model.procedure import Procedure
from ...model.vehicle import Vehicle
from ...pictures.seen import Seen
from ..case import Case
from ..fault import Fault
from ._photos import photos

KIND = "form"
SEVERITY = "error"

_BECAUSE = "places are pixels of the original from the left and from the top, as the picture is seen upright"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The call-outs of the steps."""
    yield from _check(procedure, case)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The call-outs of the profile."""
    yield from _check(vehicle, case)


def _check(model: Procedure | Vehicle, case: Case) -> Iterator[Fault]:
    for photo, seen in photos(model, case):
        for number, one in enumerate(photo.callouts, 1):
            if seen.trouble is None and (one.x >= seen.width or one.y >= seen.height):
                size = f"{seen.width} wide and {seen.height} high"
                message = f"call-out {number} at {one.x}, {one.y} lies outside of the picture, which is {size}"
                yield Fault(one.at, message, _BECAUSE, _help(one, seen))


def _help(one: Callout, seen: Seen) -> str:
    if one.y < seen.width and one.x < seen.height:
        return f"the first number counts from the left, the second from the top; is `{one.y}, {one.x}` meant?"
    return "open the picture in a program that shows the place of the pointer, and write what it shows there"
