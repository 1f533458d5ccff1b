"""A limit of insulation resistance is below what UN R100 asks for the whole bus, or has no lower end.

## Why it matters

A part of a bus that has less than the whole bus must have is faulty whatever its maker says. And insulation has to be high:
with an upper limit alone, or one that cuts good values off, a sound part is rejected and a bad one passes.

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
    limits: at least 10 kΩ  # <- `at least 10 kΩ` is below 41 kΩ, which the whole bus must have
    source: workshop practice
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
    limits: at least 5 MΩ
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Source

UN R100, 5.1.3 (100 Ω/V for DC, 500 Ω/V for AC and for both joined).
"""

from collections.abc import Iterator

from ...limits.limit_rule import Asked
from ...limits.rules import insulation_resistance
from ...model import actions
from ...model.cited import Cited, Computed
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault

KIND = "danger"
SEVERITY = "error"
STEPS = (actions.Measure,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Insulation of circuits of class B whose floor can be computed; a rule that is cited is held by its own."""
    measured: actions.Measure = step.action  # type: ignore[assignment]
    limit = measured.limit
    if measured.quantity != "insulation resistance" or limit is None or case.vehicle is None:
        return
    if limit.low is None or (limit.high is not None and step.cited is not None):
        text = f"`{limit}` sets an upper end to an insulation resistance"
        yield Fault((*step.at, "limits"), text, "insulation has to be high", "write `at least …`")
        return
    if step.cited is not None:
        return
    asked = insulation_resistance.compute(Asked(Cited(insulation_resistance.NAME), measured, case.vehicle))
    if isinstance(asked, Computed) and asked.low is not None and limit.low < asked.low:
        text = f"`{limit}` is below {asked.low}, which the whole bus must have"
        help_ = "write a higher limit: a single part has to be far better than the bus"
        yield Fault((*step.at, "limits"), text, f"{asked.words} ({asked.source})", help_)
