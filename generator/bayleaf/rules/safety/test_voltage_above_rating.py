"""The insulation is tested with more than a part at the pins stands.

## Why it matters

The filters and the electronics of a unit are made for a test voltage, and break down above it. The fault that is then found is
the one that the test has made. What is joined to the pins gets the whole voltage, the tested unit or not.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - measure: Insulation of the whole bus
    quantity: insulation resistance
    between: [X1/1 cable, chassis] # <- step 2 measures at `X1/1 cable` with 1500 V, and `cabin-heater` stands no more than 1000 V
    using: insulation-tester
    test_voltage: 1500 V
    discharged: at most 5 V
    limits: at least 1 MΩ
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Passes

With everything unplugged that does not stand it.

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - measure: Insulation of the harness
    quantity: insulation resistance
    between: [X1/1 cable, chassis]
    using: insulation-tester
    test_voltage: 1500 V
    discharged: at most 5 V
    limits: at least 1 MΩ
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Source

ISO 6469-3, 8.2.2 (text of 2011), and UN R100, Annex 5A: what cannot stand the voltage is tested apart. The figure is that of the
profile (`highest_test_voltage`).
"""

from collections.abc import Iterator

from ...model import actions
from ...model.procedure import Procedure
from ...safety.breaches import Breach
from ...safety.premises import Premise
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind

KIND = "practice"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each part that may be joined to the pins and does not stand the voltage, or of which that is not known."""
    for breach in of_kind(case, "test stood", "rating known"):
        assert isinstance(breach.demand, Premise) and case.vehicle is not None
        part = case.vehicle.parts[breach.demand.thing]
        volts = _volts(breach)
        if part.highest_test_voltage is None:
            message = f"{does(breach)} with {volts}, and it is not known what `{part.id}` stands"
            help_ = f"add `highest_test_voltage` to `{part.id}` in the profile, or unplug it before"
        else:
            message = f"{does(breach)} with {volts}, and `{part.id}` stands no more than {part.highest_test_voltage}"
            help_ = f"write a lower `test_voltage`, or unplug `{part.id}` before, on every path"
        yield fault_of(breach, case, message, "it is joined to the pins and gets the whole voltage", help_)


def _volts(breach: Breach) -> str:
    action = breach.spots[-1].step.action
    assert isinstance(action, actions.Measure) and action.test_voltage is not None
    return str(action.test_voltage)
