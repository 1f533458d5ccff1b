"""The words of a step name something that the step does not touch.

## Why it matters

What a step touches decides what has to be dead before it. That is told by its action and by `on`; what
stands in the words only is not looked at.

## Fails

```yaml fails procedure
steps:
  - do: Move the cable at X7 to and fro. # <- the text names the connector `X7`, but the step is not `on` it
    on: nothing
```

## Passes

```yaml passes procedure
steps:
  - do: Move the cable at X210 to and fro.
    on: X210
```

## Source

A decision of this format. Only names that can be nothing else are looked for: those of connectors such as
X7, and names with a hyphen.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from ...diagnostics.place import Path
from ...model.common import Conditions
from ...model.contact import Contact, read_contact
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ..case import Case, names_of
from ..fault import Fault
from ..references._memo import of_last

KIND = "practice"
SEVERITY = "warning"
#: What can be nothing but a name: capitals and a number, or words joined by hyphens.
_NAME = re.compile(r"[A-Z]+[0-9]+|[A-Za-z0-9]+(?:-[A-Za-z0-9]+)+")
#: What may stand beside a name without a space.
_PUNCTUATION = ",.;:/()[]!?'\"“”‘’–—"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Names of the profile in `do` that neither the action nor `on` holds."""
    if case.vehicle is None:
        return
    names = _names(case.vehicle)
    texts = [step.detail for step in procedure.steps if step.detail is not None]
    found = names.keys() & _words(" ".join(texts))
    if not found:
        return
    told: set[tuple[Path, str]] = set()
    for step in procedure.steps:
        if step.detail is None or step.broken:
            continue
        for name in sorted(name for name in found if name in step.detail and name not in step.on):
            place = re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", step.detail)
            if place is not None and (step.at, name) not in told and name not in _touched(step, case.vehicle):
                told.add((step.at, name))
                yield Fault(
                    (*step.at, "do"),
                    f"the text names the {names[name]} `{name}`, but the step is not `on` it",
                    "what a step touches is told by its action and by `on`, not by its words",
                    f"add `{name}` to `on`, or leave the name out where nothing is touched there",
                    span=place.span() if step.group is None else None,  # within a group the file says `each`
                )


def _words(text: str) -> set[str]:
    """The words of a text, so that most procedures are done with after one look at all their texts together."""
    for sign in _PUNCTUATION:
        text = text.replace(sign, " ")
    return set(text.split())


@of_last
def _names(vehicle: Vehicle) -> Mapping[str, str]:
    """The names that are looked for, with the kind of thing each is."""
    return {name: named.kind for named in names_of(vehicle).values() if _NAME.fullmatch(name := named.id)}


def _touched(step: Step, vehicle: Vehicle) -> set[str]:
    """Every name in `on`, in the action and in the conditions; of a fastener also what it holds."""
    found = _texts((step.on, step.when))
    for field in step.action.__slots__:
        found |= _texts(getattr(step.action, field))
    for name in list(found):
        fastener = vehicle.fasteners.get(name)
        if fastener is not None:
            found |= _texts((fastener.part, fastener.point, fastener.terminal))
    return found | {contact.connector for text in found if (contact := read_contact(text)) is not None}


def _texts(value: Any) -> set[str]:
    if isinstance(value, str):
        return {value}
    if isinstance(value, Contact):
        return {value.connector}
    if isinstance(value, tuple):
        return set().union(*map(_texts, value))
    if isinstance(value, Conditions):
        return set().union(*(_texts(getattr(value, field)) for field in value.__slots__ if field != "at"))
    return set()
