"""A bond is measured at a housing that may be live.

## Why it matters

The bond of a housing is measured because nobody knows whether it is good. Where it is not, a fault of the insulation inside
puts the whole voltage on the housing, and the clip of the meter, with the hand on it, is the way to the chassis. So the
circuit is proved dead first, or the voltage between the housing and the chassis is read and found below 5 V. That reading
holds until anything may feed the circuit again, and until nobody has watched the vehicle for a while.

## Fails

```yaml fails procedure
steps:
  - measure: Bond of the heater
    quantity: bonding resistance
    at: [cabin-heater, chassis] # <- step 1 measures at `cabin-heater` while Traction DC bus may be live
    test_current: 1 A
    limits: at most 40 mΩ
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - measure: Voltage of the heater's housing
    quantity: voltage
    at: [cabin-heater, chassis]
    using: multimeter
    limits: at most 5 V
    source: workshop practice
  - measure: Bond of the heater
    quantity: bonding resistance
    at: [cabin-heater, chassis]
    test_current: 1 A
    limits: at most 40 mΩ
    source: workshop practice
```

## Source

UN R100 (protection against indirect contact; from memory); the 5 V are common practice.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import MAY_BE, circuit_of, does, fault_of, of_kind, voltage_words

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each bond at a part of class B while its circuit may not be dead and its housing was not read."""
    for breach in of_kind(case, "housing"):
        circuit, name = circuit_of(breach, case), breach.demand.name
        assert breach.word is not None
        message = f"{does(breach)} while {circuit.name} may be {MAY_BE[breach.word]}"
        because = f"a fault inside puts `{circuit.id}` ({voltage_words(circuit)}) on a housing whose bond is not good"
        help_ = (
            f"prove `{circuit.id}` dead before; or read the housing first: `quantity: voltage`, `at: [{name}, chassis]`, "
            "`limits: at most 5 V`"
        )
        yield fault_of(breach, case, message, because, help_)
