"""A procedure expects a state, and nobody performs it.

## Why it matters

What expects a circuit to be isolated or dead begins in the middle: it is safe only behind what brings the vehicle there. It
is no way in, and stands in no index as a start. If no procedure performs it, nobody ever comes to it the safe way. It is also
enough that a conclusion of another one names it as its `repair` and leaves all that it expects. While a manual is being
written this is no mistake yet: the caller may come next.

## Fails

```yaml fails procedure
expects: {traction: proved dead} # <- this procedure expects `traction` to be proved dead, and no procedure performs it yet
steps:
  - do: Look into the open inverter.
    on: nothing
```

## Passes

```yaml passes procedure
expects: {traction: live}
steps:
  - do: Look at the vehicle.
    on: nothing
```

## Source

A decision of this format.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ..safety._tell import of_kind

KIND = "practice"
SEVERITY = "advice"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The first circuit of which more than live is expected. Where some procedure cannot be read, nothing is said."""
    breaches = tuple(of_kind(case, "performed"))
    if not breaches:
        return
    own = [fact for fact in case.facts.values() if fact.folder == procedure.folder]
    if not all(fact.readable and case.facts.keys() >= set(fact.performs) for fact in own):
        return
    is_return = procedure.kind == "return to service"
    caller = (
        "at the end of each procedure that isolates the vehicle"
        if is_return
        else ("in the procedure that brings the vehicle there, or leave `expects` out")
    )
    for breach in breaches:
        yield Fault(
            breach.demand.at,
            f"this procedure expects `{getattr(breach.demand, 'circuit', '')}` to be {breach.demand.name}, "
            "and no procedure performs it yet",
            "it begins in the middle: nobody may start with it, and nothing leads to it before one does",
            f"write `perform: {procedure.id}` {caller}",
            key=True,
        )
