"""An insulation test does not say its test voltage.

## Why it matters

The same piece shows 50 MΩ at 50 V and breaks down at 500 V. A reading without its test voltage cannot be held against a limit;
and a voltage that somebody chooses at the tester can be too high for what is joined to the leads.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - measure: Insulation of the heater # <- an insulation resistance is measured, and the test voltage is not said
    quantity: insulation resistance
    between: [X7/1 device, chassis]
    using: insulation-tester
    discharged: at most 5 V
    limits: at least 1 MΩ
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
    limits: at least 1 MΩ
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Source

UN R100, Annex 5A, and ISO 6469-3, 8.2.2 (text of 2011): both ask for a stated test voltage.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import fault_of, of_kind

KIND = "validity"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each insulation test without a voltage; one that cannot be read is told where it was read."""
    for breach in of_kind(case, "voltage said"):
        yield fault_of(
            breach._replace(way=""),
            case,
            "an insulation resistance is measured, and the test voltage is not said",
            "the reading depends on it, and so does what the parts at the pins have to stand",
            "add `test_voltage:`, at least the highest voltage of the circuit, such as `test_voltage: 500 V`",
        )
