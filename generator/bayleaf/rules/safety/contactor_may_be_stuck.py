"""A point is opened although a contactor may be stuck, and no current was read.

## Why it matters

With a welded contactor, switching off does not take the load away. Whoever then draws the plug draws an arc. A clamp round the
cable shows whether current flows, before anything is opened.

## Fails

Shown file by file in the tests: a procedure for P0AA1 draws the service plug after switching off.

## Passes

The same with a clamp reading of 0 A round the cable before the plug is drawn.

## Source

Common practice. The codes: SAE J2012 (from memory).
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.things import ThingDemand
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, join_words, of_kind

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each point of a dangerous circuit that is opened without a reading on some path."""
    for breach in of_kind(case, "stuck"):
        demand = breach.demand
        assert isinstance(demand, ThingDemand)
        message = f"{does(breach)} while a contactor may be stuck and no current of 0 A was read"
        cables = [name for name in demand.thing.split(", ") if name]
        where = (
            f"round {join_words(cables)}" if cables else "round a cable of the circuit, which the profile has to name"
        )
        help_ = f"add before it a `measure` of current {where}, with limits about 0 A such as `0 A ± 1 A`"
        yield fault_of(breach, case, message, "opened under load it draws an arc", help_)
