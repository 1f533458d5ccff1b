"""A circuit has a higher voltage than voltage class B covers.

## Why it matters

Voltage class B ends at 1500 V DC and 1000 V AC. Gloves, tools, testers and distances that are right within it
are wrong above it, and so is what is checked here. Most often a digit too many was typed.

## Fails

```yaml fails vehicle
circuits:
  heater-link:
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 4100 V} # <- `4100 V` is above 1500 V DC, where voltage class B ends
    sources:
      battery: none
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
    voltage: {kind: dc, nominal: 1200 V, max: 1500 V}
    sources:
      battery: none
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

ISO 6469-3:2021, voltage classes: class B is above 60 V DC or 30 V AC and up to 1500 V DC or 1000 V AC (upper ends from
memory).
"""

from collections.abc import Iterator

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._circuits import electrical

KIND = "danger"
SEVERITY = "error"

#: Where voltage class B ends, in volts: ISO 6469-3:2021 (from memory).
_END = {"dc": 1500, "ac": 1000}


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The highest voltage of every circuit, or its nominal one where the highest is not written."""
    for circuit in electrical(vehicle):
        voltage = circuit.voltage
        if voltage is None:
            continue
        key, value = ("max", voltage.max) if voltage.max is not None else ("nominal", voltage.nominal)
        if value is not None and value.si > _END[voltage.kind]:
            yield Fault(
                (*circuit.at, "voltage", key),
                f"`{value}` is above {_END[voltage.kind]} V {voltage.kind.upper()}, where voltage class B ends",
                "above it other gloves, tools, testers and distances are needed, and none of that is checked here",
                "look whether the figure is right; work on such a circuit cannot be described here",
            )
