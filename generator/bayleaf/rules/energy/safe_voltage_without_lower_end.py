"""Something is called safe by a voltage that may also be nothing.

## Why it matters

A sensor whose wire is broken, whose plug is out or whose supply is off reads 0 V, as if there were no pressure and nothing turned.
Where 0 V counts as safe, a fault of the sensor opens a system that is under pressure. A signal that is to prove something must have
a voltage of its own for "nothing there", and the limit a lower end above zero.

That alone is not enough. A sensor that is stuck gives its zero at any pressure: let it follow a gauge up and down before it is believed.
Its signal is a share of its supply: read that too, at the last moment.

## Fails

```yaml fails vehicle
circuits:
  heater-coolant:
    name: Heater coolant
    energy: pressure
    sources: {pump: {taken_off_by: [[mode-off]]}}
    safe: {voltage: at most 0.6 V} # <- `heater-coolant` is called safe at 0 V, which a broken wire reads as well
  # and the others
```

## Passes

```yaml passes vehicle
circuits:
  heater-coolant:
    name: Heater coolant
    energy: pressure
    sources: {pump: {taken_off_by: [[mode-off]]}}
    safe: {voltage: 0.4 V to 0.6 V}
  # and the others
```

## Source

Common practice: a signal of 0.5 V to 4.5 V leaves room on both sides, by which a broken wire is told.
"""

from collections.abc import Iterator
from fractions import Fraction

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault

KIND = "danger"
SEVERITY = "warning"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Limits of a voltage by which something else is proved safe, where they let 0 V through."""
    for circuit in vehicle.circuits.values():
        for name, limit in circuit.safe:
            if limit.quantity == "voltage" and Fraction(0) in limit.interval:
                yield Fault(
                    (*circuit.at, "safe", name),
                    f"`{circuit.id}` is called safe at 0 V, which a broken wire reads as well",
                    "a fault of the sensor would open a system that is not safe",
                    "give the limit a lower end above 0 V, or let it be read by a gauge or a thermometer",
                )
