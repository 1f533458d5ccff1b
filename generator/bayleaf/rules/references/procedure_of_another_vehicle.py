"""A procedure refers to a procedure of another vehicle.

## Why it matters

Circuits, isolation points and connectors are those of one vehicle. The steps of another vehicle's
procedure open points that this one does not have, and leave its own closed.

## Fails

Shown file by file in the tests: `procedures/test-van/job.yml` performs `other-van/isolate`.

## Passes

```yaml passes procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    then: leaks
conclusions:
  leaks:
    finding: The heater leaks.
    repair: test-van/isolate
```

## Source

The format of the files, version 1: a procedure is about the vehicle of its folder, and so is all that it
performs.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault, Spot
from ._procedures import references

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """What is performed or named as a repair lies in the same folder."""
    for name, at, folder in references(procedure):
        facts = case.facts.get(name)
        if facts is not None and facts.folder != folder:
            own = f"{folder}/{name.rpartition('/')[2]}"
            yield Fault(
                at,
                f"`{name}` is a procedure of another vehicle",
                f"this procedure is about `{folder}`, and the points that the other opens are not those of it",
                f"did you mean `{own}`?" if own in case.facts else f"write it for this vehicle, as `{own}`",
                see=(Spot(facts.file, ("title",), f"`{facts.title}`, for `{facts.folder}`"),),
            )
