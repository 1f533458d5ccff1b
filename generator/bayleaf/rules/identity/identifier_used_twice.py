"""One name stands for two things.

## Why it matters

Whoever leads to the name, or touches what it names, gets one of the two; which one is chance. Names of a
vehicle are compared without regard to capitals, since nobody hears the difference between `X7` and `x7`
across the bay.

## Fails

```yaml fails procedure
steps:
  - id: look
    do: Look at the vehicle.
    on: nothing
  - id: look  # <- `look` is the name of two steps
    do: Look at the display.
    on: nothing
```

```yaml fails vehicle
cables:
  x210:  # <- `x210` is the name of a cable, and `X210` of a connector
    name: Ground strap
    circuit: supply-12
```

```yaml fails procedure
steps:
  - for_each: [X210, X210]  # <- `X210` stands twice in `for_each`
    steps:
      - do: Look at the plug.
        on: each
```

## Passes

```yaml passes procedure
steps:
  - id: look
    do: Look at the vehicle.
    on: nothing
  - id: look-again
    do: Look at the display.
    on: nothing
```

## Source

The format of the files, version 1: one name space for the steps and conclusions of a procedure, one for
the circuits, isolation points, connectors, parts, cables and fasteners of a vehicle.
"""

from collections.abc import Iterator

from ...diagnostics.place import Path
from ...model.procedure import Procedure
from ...model.vehicle import Vehicle
from ..case import SECTIONS, Case
from ..fault import Fault, Spot

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Steps, conclusions, and the places of groups."""
    twice: set[str | None] = set()
    for group, at in _repeated_places(procedure):
        twice.add(group)
        yield Fault(
            at,
            f"`{group}` stands twice in `for_each`",
            "the same steps would be done twice at the same place, under the same names",
            "take one out",
        )
    first: dict[str, Path] = {}
    for step in procedure.steps:
        if step.id is None or step.group in twice:
            continue
        before = first.setdefault(step.id, step.at)
        if before is not step.at:
            name = step.id.partition("@")[0]
            spot = Spot(procedure.file, (*before, "id"), f"the first step `{name}`")
            help_ = f"call one of them otherwise, such as `{name}-again`"
            yield Fault((*step.at, "id"), f"`{name}` is the name of two steps", help=help_, see=(spot,))
    for end in procedure.conclusions.values():
        if end.id in first:
            spot = Spot(procedure.file, (*first[end.id], "id"), f"the step `{end.id}`")
            message = f"`{end.id}` is the name of a conclusion and of a step"
            yield Fault(end.at, message, help="call one of them otherwise", see=(spot,), key=True)


def _repeated_places(procedure: Procedure) -> Iterator[tuple[str, Path]]:
    """Places that a group names again; every place unfolds the same lines, beginning with the first."""
    places: dict[Path, list[str]] = {}
    for step in procedure.steps:
        if step.group is not None and step.at[-1] == 0:
            named = places.setdefault(step.at[:-2], [])
            if step.group in named:
                yield step.group, (*step.at[:-2], "for_each", len(named))
            named.append(step.group)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The common name space of the profile; the order of the sections tells which is called the second."""
    first: dict[str, tuple[str, str, Path]] = {}
    for section, kind in SECTIONS.items():
        for name, element in getattr(vehicle, section).items():
            folded = name.casefold()
            if folded not in first:
                first[folded] = (kind, name, element.at)
                continue
            other_kind, other, at = first[folded]
            article, article_other = ("an" if word[0] in "aeiou" else "a" for word in (kind, other_kind))
            both = f"`{name}` is the name of {article} {kind}"
            message = f"{both}, and `{other}` of {article_other} {other_kind}"
            if kind == other_kind:
                message = f"`{name}` and `{other}` are both the name of {article} {kind}"
            because = "names are compared without regard to capital and small letters" if name != other else None
            spot = Spot(vehicle.file, at, f"{article_other} {other_kind} of this name", key=True)
            yield Fault(element.at, message, because, "call one of them otherwise", see=(spot,), key=True)
