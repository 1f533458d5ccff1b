"""A test point does not say how it is reached.

## Why it matters

Before a circuit is proved dead, only that may be opened which the test points name. A test point without `access` lets no
cover be opened for it, and whoever follows the procedure does not know which one is meant.

## Fails

```yaml fails vehicle
circuits:
  heater-link:
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: none
      converter: none
      external: none
    monitor: none
    stored: none
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis]} # <- a test point of `heater-link` does not say which cover comes off for it
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

## Passes

```yaml passes vehicle
circuits:
  heater-link:
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: none
      converter: none
      external: none
    monitor: none
    stored: none
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

## Source

The format of the files, version 1; common practice: as little as possible is opened before dead is proved.
"""

from collections.abc import Iterator

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ..once import once
from ._circuits import dangerous

KIND = "danger"
SEVERITY = "warning"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Test points of dangerous circuits; told once a circuit."""
    yield from once(_faults(vehicle), vehicle.file)


def _faults(vehicle: Vehicle) -> Iterator[Fault]:
    for circuit in dangerous(vehicle):
        for point in circuit.dead_at:
            if point.access is None and "access" not in point.says:
                yield Fault(
                    (*point.at, "pair"),
                    f"a test point of `{circuit.id}` does not say which cover comes off for it",
                    "before a circuit is proved dead, only the access that its test points name may be opened",
                    "add `access:` with the part that comes off, or `access: none` where nothing does",
                )
