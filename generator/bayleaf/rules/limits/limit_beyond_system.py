"""A limit lies beyond what the system can show.

## Why it matters

A lower limit above the highest voltage of the circuit calls every sound vehicle faulty. An upper limit above it never
finds the fault. Mostly a digit or a unit is wrong.

## Fails

```yaml fails procedure
steps:
  - set: {mode: ignition}
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits: 11.5 V to 16 V  # <- 16 V is never there: `supply-12` has at most 15 V
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: ignition}
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits: 11.5 V to 14.8 V
    source: workshop practice
```

## Source

The highest working voltage of the vehicle profile; ISO 11898-2 for a CAN bus (no line above 5 V), the same for FlexRay.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from ...diagnostics.place import Path
from ...model import actions
from ...model.pins import circuits_at, contacts_of, pins_at
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault, Spot

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Measure,)

#: Lines that a transceiver with a supply of 5 V drives. Source: ISO 11898-2; FlexRay electrical physical layer.
_FIVE_VOLTS = ("CAN", "CAN FD", "FlexRay")


class _Bound(NamedTuple):
    """The most that can be read, in volts, in words, and where the profile says it."""

    volts: Fraction
    words: str
    at: Path


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Voltages at contacts of which the profile knows the highest voltage."""
    measured: actions.Measure = step.action  # type: ignore[assignment]
    if measured.quantity not in ("voltage", "voltage drop") or measured.limit is None or case.vehicle is None:
        return
    bound = _bound(measured, case.vehicle)
    done = step.cited.computed if step.cited is not None else None
    by_rule = (done.low, done.high) if done is not None else ()
    for end in (measured.limit.high, measured.limit.low):
        if end in by_rule:  # a range in which a component works may well be wider than its supply
            continue
        if bound is not None and end is not None and end.si > bound.volts:
            text = f"{end} is never there: {bound.words}"
            because = "an upper limit that is never reached finds no fault; a lower one that is never reached finds only faults"
            spot = Spot(case.vehicle.file, bound.at, "the profile", key=True)
            yield Fault(
                (*step.at, "limits"), text, because, "check the figure and its unit, or the profile", see=(spot,)
            )
            return


def _bound(measured: actions.Measure, vehicle: Vehicle) -> _Bound | None:
    contacts = tuple(contacts_of(measured))
    names = tuple(dict.fromkeys(circuits_at(contacts, vehicle)))
    named = dict.fromkeys(pin.bus for _, pin in pins_at(contacts, vehicle) if pin.bus is not None)
    buses = [vehicle.buses[name] for name in named if name in vehicle.buses]
    if buses and not names and all(bus.kind in _FIVE_VOLTS for bus in buses):
        return _Bound(Fraction(5), f"`{buses[0].id}` is {buses[0].kind}, of which no line is above 5 V", buses[0].at)
    highest: _Bound | None = None
    for name in names:
        circuit = vehicle.circuits.get(name)
        if circuit is None or circuit.voltage is None or circuit.voltage.max is None:
            return None
        most = circuit.voltage.max
        if highest is None or most.si > highest.volts:
            highest = _Bound(most.si, f"`{name}` has at most {most}", (*circuit.at, "voltage"))
    return highest
