"""A circuit of voltage class B does not say what takes its insulation monitor off.

## Why it matters

The vehicle's own insulation monitor lies between the circuit and the chassis. Where it is left on while the insulation
is tested, its resistance is read along, and the test voltage may destroy it.

## Fails

```yaml fails vehicle
circuits:
  heater-link: # <- `heater-link` does not say what takes its insulation monitor off
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: none
      converter: none
      external: none
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
    monitor: {taken_off_by: [[service-plug]]}
    stored: none
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

## Source

UN R100, annex 5A, and ISO 6469-3: on-board monitoring is taken off or put out of action when the insulation
is measured (from memory).
"""

from collections.abc import Iterator

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._circuits import class_b

KIND = "validity"
SEVERITY = "error"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Circuits of voltage class B, those within a sealed part too: their insulation is measured from outside."""
    for circuit in class_b(vehicle):
        if "monitor" not in circuit.says:
            yield Fault(
                circuit.at,
                f"`{circuit.id}` does not say what takes its insulation monitor off",
                "a monitor that stays on is read along when insulation is tested, and the test may destroy it",
                "add `monitor: {taken_off_by: [[…]]}`, or `monitor: none` where this circuit has none",
                key=True,
            )
