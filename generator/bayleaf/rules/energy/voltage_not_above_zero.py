"""The voltage of a circuit is zero or less.

## Why it matters

A circuit with a highest voltage of 0 V or less would need no care at all. The highest voltage is the size that it can
have, whichever pole is taken for the reference.

## Fails

```yaml fails vehicle
circuits:
  supply-24:
    name: 24 V supply of the body
    energy: electrical
    voltage: {kind: dc, max: -30 V} # <- the highest voltage of a circuit cannot be `-30 V`
    fused: yes
    sources: {battery: {taken_off_by: [[aux-negative]]}}
  # and the others
```

## Passes

```yaml passes vehicle
circuits:
  supply-24:
    name: 24 V supply of the body
    energy: electrical
    voltage: {kind: dc, max: 30 V}
    fused: yes
    sources: {battery: {taken_off_by: [[aux-negative]]}}
  # and the others
```

## Source

The format of the files, version 1: `max` is the highest voltage in service.
"""

from collections.abc import Iterator

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._circuits import electrical

KIND = "danger"
SEVERITY = "error"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Both voltages of every circuit."""
    for circuit in electrical(vehicle):
        if circuit.voltage is None:
            continue
        for key, word in (("nominal", "nominal"), ("max", "highest")):
            value = getattr(circuit.voltage, key)
            if value is not None and value.si <= 0:
                yield Fault(
                    (*circuit.at, "voltage", key),
                    f"the {word} voltage of a circuit cannot be `{value}`",
                    "class, protection and waiting time follow from its size, whichever pole is the reference",
                    "write the size without a sign, such as `15 V`",
                )
