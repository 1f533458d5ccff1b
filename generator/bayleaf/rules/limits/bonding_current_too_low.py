"""A bond is measured with too little current.

## Why it matters

An ohmmeter sends a few milliamperes. A strap that hangs by one strand, or a bolt on paint, may well pass them: the reading is
good, and the strap is not there when a fault current needs it.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
instruments:
  ohmmeter:
    name: Ohmmeter with a low range
    kind: milliohm meter
    functions:
      low resistance:
        - {range: 2 Ω, resolution: 1 mΩ, accuracy: 0.5 % + 3 digits, test_current: 10 mA}
```

```yaml fails beside procedure
steps:
  - perform: test-van/isolate
  - measure: Bond of the heater
    quantity: bonding resistance
    between: [X210/1, chassis]
    using: ohmmeter  # <- `ohmmeter` sends at most 10 mA on these ranges; a bond is measured with at least 0.2 A
    limits: {rule: potential equalisation}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the bonding strap of the heater.
    on: nothing
```

## Source

UN R100, 5.1.2.2: below 0.1 Ω at a current of at least 0.2 A.
"""

from collections.abc import Iterator
from fractions import Fraction

from ...calculations.bonding import LEAST_CURRENT
from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault
from ._deciding import deciding, suggestion

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Measure,)

_LEAST = Fraction(str(LEAST_CURRENT))


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Readings of a bond: the current that the step asks for, and that of the instrument's ranges."""
    measured: actions.Measure = step.action  # type: ignore[assignment]
    if measured.quantity != "bonding resistance":
        return
    because = "UN R100 asks for below 0.1 Ω at a current of at least 0.2 A"
    if measured.test_current is not None and measured.test_current.si < _LEAST:
        text = f"the test current of {measured.test_current} is below 0.2 A"
        yield Fault((*step.at, "test_current"), text, because, "write `test_current: 200 mA` or more")
        return
    found = deciding(step, case)
    ranges = found.instrument.functions.get(found.function, ()) if found is not None else ()
    currents = [one.test_current for one in ranges if one.test_current is not None]
    if found is not None and currents and len(currents) == len(ranges) and max(one.si for one in currents) < _LEAST:
        most = max(currents, key=lambda one: one.si)
        text = f"`{found.instrument.id}` sends at most {most} on these ranges; a bond is measured with at least 0.2 A"
        yield Fault((*step.at, "using"), text, because, suggestion(found, case), see=(found.spot,))
