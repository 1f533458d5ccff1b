"""Something is called by a word that means something already.

## Why it matters

`on: nothing` says that a step touches nothing. If a part were called so, nobody could tell what is meant,
and the checker would choose.

## Fails

```yaml fails procedure
steps:
  - id: next  # <- no step can be called `next`
    do: Look at the vehicle.
    on: nothing
```

```yaml fails vehicle
cables:
  chassis:  # <- no cable can be called `chassis`
    name: Ground strap
    circuit: supply-12
```

## Passes

```yaml passes vehicle
cables:
  chassis-strap:
    name: Ground strap
    circuit: supply-12
```

## Source

The format of the files, version 1. Of a vehicle: `chassis`, `nothing`, `none`, `never`, `each`,
`mode-off`. Of a procedure: `next`, `stop`, `end`.
"""

from collections.abc import Iterator

from ...model.common import RESERVED_NAMES
from ...model.procedure import RESERVED_TARGETS, Procedure
from ...model.vehicle import Vehicle
from ..case import SECTIONS, Case
from ..fault import Fault

KIND = "form"
SEVERITY = "error"

_MEANS = {
    "chassis": "in a contact it is the chassis of the vehicle",
    "nothing": "in `on` it says that nothing is touched",
    "none": "it says that there is none",
    "never": "it says of a source that nothing takes it off",
    "each": "in a group of steps it stands for the name of the place",
    "mode-off": "it is the isolation point that every vehicle has",
    "next": "it leads to the step that follows",
    "stop": "it ends the work for everybody",
    "end": "it ends the procedure",
}


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Steps and conclusions. Of a group the name is looked at as it is written."""
    for step in procedure.steps:
        if step.id is not None:
            name = step.id.partition("@")[0]
            if name in RESERVED_TARGETS:
                help_ = "choose a name that says what is done"
                yield Fault((*step.at, "id"), f"no step can be called `{name}`", _MEANS[name], help_)
    for end in procedure.conclusions.values():
        if end.id in RESERVED_TARGETS:
            help_ = "choose a name that says what was found"
            yield Fault(end.at, f"no conclusion can be called `{end.id}`", _MEANS[end.id], help_, key=True)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The elements that share one name space, and the buses."""
    for section, kind in (*SECTIONS.items(), ("buses", "bus")):
        for name, element in getattr(vehicle, section).items():
            word = name.casefold()
            if word in RESERVED_NAMES:
                help_ = f"choose a longer name, such as `{word}-1`"
                yield Fault(element.at, f"no {kind} can be called `{name}`", _MEANS[word], help_, key=True)
