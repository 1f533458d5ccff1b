"""A battery is taken out with its contacts bare.

## Why it matters

A sealed battery keeps its voltage on the bench and on the lift. A strap, a bolt or a sleeve across its contacts makes an arc
that nothing switches off. Each contact is capped before the battery moves.

## Fails

Shown file by file in the tests: the traction battery is taken out by its plug alone.

## Passes

The same with `fit_temporary` of caps at the plug of the battery before.

## Source

EN 50110-1, 6.2 (fifth rule: protection against adjacent live parts; clause number from memory).
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.things import ThingDemand
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each sealed part of a dangerous circuit that comes out while a plug of it may be bare."""
    for breach in of_kind(case, "capped"):
        assert isinstance(breach.demand, ThingDemand)
        message = f"{does(breach)} while the contacts of `{breach.demand.thing}` may be bare"
        help_ = f"add before it a `fit_temporary` of caps, with `at: {breach.demand.thing}`, on every path"
        yield fault_of(breach, case, message, "nothing takes the voltage of a sealed battery off", help_)
