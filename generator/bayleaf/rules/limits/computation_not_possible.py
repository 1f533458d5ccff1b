"""A value cannot be computed from the readings that are named.

## Why it matters

In the bay the readings are there, the car is apart, and the value that decides cannot be worked out: a reading or the known
resistor is missing, or a pressure would be taken from a voltage.

## Fails

```yaml fails procedure
steps:
  - set: {mode: ignition}
  - id: supply
    measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits: at least 11 V
    source: workshop practice
  - id: drop
    measure: Drop of the ground wire
    quantity: voltage drop
    between: [X210/1, chassis]
    using: multimeter
    limits: at most 100 mV
    source: workshop practice
  - id: again
    measure: Supply, a second time
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits: at least 11 V
    source: workshop practice
  - compute: What is lost
    formula: difference
    of: [supply, drop, again]  # <- `difference` takes two readings, here are three
    quantity: voltage
    limits: at most 13 V
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: ignition}
  - id: supply
    measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits: at least 11 V
    source: workshop practice
  - id: drop
    measure: Drop of the ground wire
    quantity: voltage drop
    between: [X210/1, chassis]
    using: multimeter
    limits: at most 100 mV
    source: workshop practice
  - compute: What is left
    formula: difference
    of: [supply, drop]
    quantity: voltage
    limits: at least 10.9 V
    source: workshop practice
```

## Source

The formulas themselves; UN R100, annex 5A: the voltmeter method takes the voltage pole to pole, both poles to the chassis, and the
higher of these again with a known resistor in parallel.
"""

from collections.abc import Iterator
from typing import Any

from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Compute,)

#: How many readings a formula takes, least and most.
_COUNTS = {"difference": (2, 2), "parallel": (2, None), "average": (2, None), "insulation by voltmeter": (4, 4)}
_WORDS = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}
#: Kinds of value that are read in the same unit.
_ALIKE = {
    "voltage drop": "voltage", "diode": "voltage", "continuity": "resistance", "insulation resistance": "resistance",
    "bonding resistance": "resistance",
}  # fmt: skip


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Number and kind of the readings, and the known resistor of the voltmeter method."""
    computed: actions.Compute = step.action  # type: ignore[assignment]
    yield from _count(step, computed)
    if computed.formula == "insulation by voltmeter" and computed.resistor is None:
        text = "the known resistor of the voltmeter method is not stated"
        help_ = "write `resistor: 200 kΩ`: about the Ω/V that are asked for times the voltage"
        yield Fault((*step.at, "formula"), text, "Ri = Ro · Vb · (1/V1′ − 1/V1), UN R100", help_)
    yield from _kinds(step, computed, procedure)


def _count(step: Step, computed: actions.Compute) -> Iterator[Fault]:
    least, most = _COUNTS.get(computed.formula, (1, None))
    count = len(computed.of)
    if count < least or (most is not None and count > most):
        asked = _WORDS[least] + ("" if most == least else " readings or more")
        number = _WORDS.get(count, str(count))
        text = f"`{computed.formula}` takes {asked}{' readings' if most == least else ''}, here {'is' if count == 1 else 'are'} {number}"
        yield Fault((*step.at, "of"), text, None, "name the readings by the ids of their steps: `of: [before, after]`")


def _kinds(step: Step, computed: actions.Compute, procedure: Procedure) -> Iterator[Fault]:
    """Readings of several kinds; the voltmeter method takes voltages."""
    found: dict[str, str] = {}
    for other in procedure.steps:
        action: Any = other.action
        if other.id in computed.of and isinstance(action, actions.Measure | actions.Read) and action.quantity:
            found.setdefault(_ALIKE.get(action.quantity, action.quantity), other.number)
    wanted = {"insulation by voltmeter": "voltage", "parallel": "resistance"}.get(computed.formula)
    if wanted is not None and set(found) - {wanted}:
        kind = next(kind for kind in found if kind != wanted)
        text = f"`{computed.formula}` is computed from readings of {wanted}, but step {found[kind]} reads {kind}"
        yield Fault((*step.at, "of"), text, None, "name the readings that are meant")
    elif wanted is None and len(found) > 1:
        kinds = " and ".join(found)
        yield Fault((*step.at, "of"), f"{kinds} are computed together", None, "name readings of one kind")
