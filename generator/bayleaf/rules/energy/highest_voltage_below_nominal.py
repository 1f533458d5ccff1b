"""The highest voltage of a circuit is below its nominal one.

## Why it matters

The class of a circuit, the protection and the waiting time follow from the highest voltage, never from the
nominal one. A battery of 355 V nominal reaches 410 V when it is full. Where the two figures are changed over, or one has a
wrong digit, everything that follows is reckoned from too low a voltage.

## Fails

```yaml fails vehicle
circuits:
  heater-link:
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 410 V, max: 355 V} # <- the highest voltage, `355 V`, is below the nominal one, `410 V`
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

ISO 6469-3:2021, 3 (maximum working voltage; clause from memory): the voltage class follows from it.
"""

from collections.abc import Iterator

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault, Spot
from ._circuits import electrical

KIND = "danger"
SEVERITY = "error"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Compares the two voltages of every circuit."""
    for circuit in electrical(vehicle):
        voltage = circuit.voltage
        if voltage is None or voltage.max is None or voltage.nominal is None or voltage.max.si <= 0:
            continue
        if voltage.max < voltage.nominal:
            at = (*circuit.at, "voltage")
            yield Fault(
                (*at, "max"),
                f"the highest voltage, `{voltage.max}`, is below the nominal one, `{voltage.nominal}`",
                "voltage class, protection and waiting time are reckoned from the highest voltage",
                "look which of the two is wrong; `max` is the highest in service, as with a full battery",
                see=(Spot(vehicle.file, (*at, "nominal"), "the nominal voltage"),),
            )
