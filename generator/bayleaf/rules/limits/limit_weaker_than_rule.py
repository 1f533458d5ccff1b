"""A limit lets more pass than the rule that it cites.

## Why it matters

Whoever reads the page sees the name of a standard beside a figure, and trusts it. A figure that is weaker than the
standard passes what the standard forbids, in its name.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - measure: Insulation of the heater
    quantity: insulation resistance
    between: [X7/1 device, chassis]
    using: insulation-tester
    test_voltage: 500 V
    discharged: at most 5 V
    limits:
      rule: insulation resistance
      at_least: 40 kΩ  # <- `at least 40 kΩ` is weaker than the rule `insulation resistance`, which asks for at least 41 kΩ
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Passes

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - measure: Insulation of the heater
    quantity: insulation resistance
    between: [X7/1 device, chassis]
    using: insulation-tester
    test_voltage: 500 V
    discharged: at most 5 V
    limits:
      rule: insulation resistance
      at_least: 5 MΩ
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Source

The source of each rule is printed with it, and stands on the page of the measurement.
"""

from collections.abc import Iterator
from typing import Any

from ...limits.joint import torque_of
from ...limits.limit_rule import MAY_CITE
from ...model.cited import Computed
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ...quantities.interval import Interval
from ...quantities.limit import Limit
from ...quantities.quantity import Quantity
from ..case import Case
from ..fault import Fault

KIND = "danger"
SEVERITY = "error"
STEPS = MAY_CITE


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Limits that are written beside a rule that could be computed."""
    action: Any = step.action
    asked = step.cited.computed if step.cited is not None else None
    if asked is None or action.limit is None:
        return
    limit: Limit = action.limit
    if Interval(_si(asked.low), _si(asked.high)).covers(limit.interval):
        return
    yield Fault(
        (*step.at, "limits", _key(limit, asked)),
        f"`{limit}` {_how(limit, asked)} the rule `{step.cited.rule}`, which asks for {_words(asked)}",  # type: ignore[union-attr]
        f"{asked.words} ({asked.source})",
        "write a limit that lies within what the rule asks for, or leave the figure out: the rule gives it",
    )


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Torques that are written beside the rule that computes them."""
    for fastener in vehicle.fasteners.values():
        done = fastener.torque_by.computed if fastener.torque_by is not None else None
        torque = torque_of(fastener.torque)
        if done is not None and done.high is not None and torque is not None and torque[1] > float(done.high.si):
            text = f"`{fastener.torque}` is more than the rule `{fastener.torque_by.rule}` allows, {done.high}"  # type: ignore[union-attr]
            help_ = "write a lower torque, or leave the rule out where the maker asks for more"
            yield Fault((*fastener.at, "torque"), text, f"{done.words} ({done.source})", help_)


def _si(value: Quantity | None) -> Any:
    return None if value is None else value.si


def _how(limit: Limit, asked: Computed) -> str:
    apart = Interval(_si(asked.low), _si(asked.high)).meet(limit.interval).empty
    return "has nothing in common with" if apart else "is weaker than"


def _key(limit: Limit, asked: Computed) -> str:
    """The key of the end that is too weak."""
    if limit.tolerance is not None:
        return "nominal"
    low_is_weak = limit.low is not None and asked.low is not None and limit.low < asked.low
    return "at_least" if low_is_weak else "at_most"


def _words(asked: Computed) -> str:
    return str(Limit(asked.low, asked.high))
