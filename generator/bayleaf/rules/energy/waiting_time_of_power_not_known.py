"""How long a circuit of 48 V power stays charged cannot be known.

## Why it matters

At 48 V nobody is killed by touching it, but charged capacitors weld a tool to a stud and burn the hand that holds it. A
missing figure counts as the worst: then no waiting settles the circuit, only a discharge and a reading.

## Fails

```yaml fails vehicle
circuits:
  power-48: # <- `power-48` does not say what it stores
    name: 48 V supply
    energy: electrical
    voltage: {kind: dc, nominal: 48 V, max: 54 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: none
      converter: none
      external: none
  # and the others
```

## Passes

```yaml passes vehicle
circuits:
  power-48:
    name: 48 V supply
    energy: electrical
    voltage: {kind: dc, nominal: 48 V, max: 54 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: none
      converter: none
      external: none
    stored: {capacitance: 8 mF ± 20 %, bleed: 4.7 kΩ ± 5 %, stated_wait: 5 min}
  # and the others
```

## Source

29 CFR 1910.333(b)(2)(ii): stored electrical energy is released before work. 5 V as the end of the wait is common
practice.
"""

from collections.abc import Iterator

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from . import _waiting

KIND = "danger"
SEVERITY = "warning"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Circuits that can be laid bare and isolated."""
    yield from _waiting.faults(vehicle, "power")
