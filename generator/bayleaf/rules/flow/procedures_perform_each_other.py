"""Procedures perform each other in a circle.

## Why it matters

Whoever is to do the one has to do the other first, and for that the first one again.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/job # <- `test-van/job` performs itself
```

A circle over several files is shown file by file in the tests.

## Passes

```yaml passes procedure
steps:
  - do: Look at the vehicle.
    on: nothing
```

## Source

A decision of this format: what a procedure performs is printed within it, so it has to come to an end.
"""

from collections.abc import Iterator
from itertools import pairwise

from ...diagnostics.place import Path
from ...model.facts import Facts
from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault, Spot

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The circle that begins here; of a circle over several files, only the first by name reports it."""
    circle = case.outlook.circle(procedure.id)
    if circle is None or case.facts[circle[0]].file != procedure.file:
        return
    names = (*circle, circle[0])
    places = [_place(case.facts[one], other) for one, other in pairwise(names)]
    message = f"`{circle[0]}` performs itself"
    if len(circle) > 1:
        message = f"`{circle[0]}` performs " + ", which performs ".join(f"`{name}`" for name in names[1:])
    see = tuple(
        Spot(case.facts[name].file, at, f"`{name}` performs the next one")
        for name, at in zip(circle[1:], places[1:], strict=True)
    )
    help_ = "take one of these steps out; what both need belongs into a third procedure"
    yield Fault(places[0], message, None, help_, see, data={"circle": list(circle)})


def _place(facts: Facts, name: str) -> Path:
    return facts.performed_at[facts.performs.index(name)]
