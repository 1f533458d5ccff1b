"""A circuit does not say its highest voltage.

## Why it matters

Whether a circuit can kill is decided by the highest voltage that it has in service. Where that is not written, the
circuit counts as voltage class B: it must be locked and proved dead, and every step at it asks for full protection.

## Fails

```yaml fails vehicle
circuits:
  heater-link:
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V} # <- `heater-link` does not say its highest voltage
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

UN R100, definition of high voltage: above 60 V DC or 30 V AC; ISO 6469-3 takes the maximum working voltage for it.
"""

from collections.abc import Iterator

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._circuits import electrical
from ._waiting import missing

KIND = "danger"
SEVERITY = "warning"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Circuits without it, but for those of which no waiting time can be reckoned: that is told as the error it is."""
    for circuit in electrical(vehicle):
        voltage = circuit.voltage
        if (voltage is not None and voltage.max is not None) or {"voltage", "max"} & set(missing(circuit)):
            continue
        yield Fault(
            circuit.at if voltage is None else (*circuit.at, "voltage"),
            f"`{circuit.id}` does not say its highest voltage",
            "it counts as voltage class B, and all that is asked of that is asked of it",
            "add `voltage: {kind: dc, max: …}`" if voltage is None else "add `max: …`, the highest voltage in service",
            key=True,
        )
