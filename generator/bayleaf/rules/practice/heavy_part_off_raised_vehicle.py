"""A heavy part comes out of a raised vehicle, and nothing is said of its balance.

## Why it matters

A vehicle on a lift stands balanced on four arms. Take an axle, an engine or a traction battery out at one end, and it tips off
the other. Whoever lowers the part stands beneath. So the step that takes it off has a `danger` or a `warning` of its own,
which says that the vehicle tips or loses its balance. One at the head of the procedure has been read long before, and a part
that can topple from its table is another matter.

## Fails

Shown file by file in the tests: a battery of 310 kg is taken off a vehicle on stands.

## Passes

The same with a warning at that step that names the balance of the vehicle.

## Source

From memory: common practice of two-post lifts; 50 kg is the weight from which a message is asked for here. A vehicle counts as
raised where a point of kind `stand` of a circuit of energy `gravity` may be in use.
"""

import re
from collections.abc import Iterator

from ...model.common import Message
from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ..safety._tell import fault_of, of_kind, step_words

KIND = "practice"
SEVERITY = "warning"
NEEDS_WALK = True

_BALANCE = re.compile(r"balanc|\btip(?:s|ped|ping)?\b|cent(?:re|er) of gravity", re.IGNORECASE)
_GRAVE = ("danger", "warning")


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each such part without a message at its step."""
    for breach in of_kind(case, "balance"):
        spot = breach.spots[-1]
        if case.vehicle is None or any(map(_tells, spot.step.messages)):
            continue
        part = case.vehicle.parts[breach.demand.name]
        mass = str(part.mass) if part.mass is not None else ""
        where = step_words(spot, len(breach.spots) > 1)
        yield fault_of(
            breach,
            case,
            f"{where} takes off `{part.id}` ({mass}) while the vehicle may be raised, and no warning there tells of its balance",
            f"`{getattr(breach.demand, 'thing', '')}` may hold the vehicle up, and it can tip without the part",
            "add a `warning` to that step: the hazard (the vehicle tips), the consequence, and how it is secured",
        )


def _tells(message: Message) -> bool:
    """What is hazardous counts, not what is done about it."""
    return message.word in _GRAVE and any(_BALANCE.search(text) for text in (message.hazard, message.consequence))
