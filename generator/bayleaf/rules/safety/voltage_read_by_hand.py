"""A high voltage is measured with hand-held probes.

## Why it matters

Above 60 V DC or 30 V AC probes are held to bare metal for one purpose only: to prove it dead. A live voltage is read through an
adapter that was fitted while the circuit was dead, with everybody standing back; or on the scan tool.

## Fails

```yaml fails procedure
steps:
  - measure: Voltage at the heater
    quantity: voltage
    between: [X7/1, X7/2] # <- step 1 measures at `X7/1` while Traction DC bus may be live
    using: voltage-tester
    limits: 300 V to 410 V
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - read: Voltage of the traction bus
    quantity: voltage
    limits: 300 V to 410 V
    source: workshop practice
```

## Source

UK HSE, guidance on electric and hybrid vehicles: live work only where there is no other way.
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
    """Each reading at contacts of class B that is no proof, while the circuit may not be dead."""
    for breach in of_kind(case, "probe"):
        circuit = circuit_of(breach, case)
        assert breach.word is not None
        message = f"{does(breach)} while {circuit.name} may be {MAY_BE[breach.word]}"
        because = (
            f"`{circuit.id}` ({voltage_words(circuit)}) is not touched with probes in the hand, but to prove it dead"
        )
        help_ = (
            "read it on the scan tool; or `fit_temporary` an adapter at this plug while the circuit is proved dead, and name "
            "the adapter under `tools` of the reading"
        )
        yield fault_of(breach, case, message, because, help_)
