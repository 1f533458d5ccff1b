"""Something is touched that an insulation test has charged.

## Why it matters

The tester puts 500 V on everything behind the plug, and filters keep it. Until the rest was read at the same pins, the piece is live
although nothing feeds it.

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
    limits: at least 5 MΩ
    source: workshop practice
  - plug: X7 # <- step 4 plugs in `X7`, which the test may have left charged
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
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
  - plug: X7
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Source

IEC 61557-2 asks a tester to discharge what it has charged (from memory); that the rest is read is common practice.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind, step_words

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each step that touches or joins a piece that a test may have charged."""
    for breach in of_kind(case, "left charged"):
        message = (
            f"what is behind `{breach.demand.name}` is tested in {step_words(breach.spots[-1])} and may be left charged"
        )
        help_ = "add `discharged: at most 5 V` to the test, or a `discharge` at the same pins, on every path"
        yield fault_of(breach, case, message, "whoever comes next does not know of the charge", help_)
    for breach in of_kind(case, "charged"):
        message = f"{does(breach)}, which the test may have left charged"
        help_ = "add `discharged: at most 5 V` to the test, or a `discharge` at the same pins, on every path"
        yield fault_of(breach, case, message, "filters keep the test voltage until it is let out and read", help_)
