"""A circuit is touched that nothing takes off.

## Why it matters

Inside a battery the cells stay live whatever is disconnected. Such a part is handled closed; nobody opens it outside a place
and a procedure made for that by its maker.

## Fails

```yaml fails procedure
steps:
  - do: Measure the cells.
    on: pack-inside # <- step 1 touches `pack-inside`, and nothing takes Inside the traction battery off
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the closed battery for dents.
    on: traction-battery
```

## Source

Common practice; the maker's service alone opens a traction battery.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import circuit_of, does, fault_of, of_kind, voltage_words

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each step that touches a circuit with a source that cannot be taken off."""
    for breach in of_kind(case, "touch"):
        if breach.lacks is not None and breach.lacks.never:
            circuit = circuit_of(breach, case)
            message = f"{does(breach)}, and nothing takes {circuit.name} off"
            words = voltage_words(circuit) if circuit.energy == "electrical" else circuit.energy
            yield fault_of(breach, case, message, f"a source of `{circuit.id}` ({words}) cannot be taken off")
