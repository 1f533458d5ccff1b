"""A resistance is measured where a rest of voltage may stand.

## Why it matters

5 V on a 48 V circuit hurts nobody, and the circuit counts as dead. But half a volt already falsifies a resistance, and more can spoil
the meter. A reading near nothing comes first.

## Fails

Shown file by file in the tests: a 48 V supply is proved dead with a limit of 5 V, then a resistance is measured on it.

## Passes

The same with a limit of 0.5 V, or with a voltage reading of at most 0.5 V between.

## Source

Common practice; the figure is from memory.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.things import ThingDemand
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind

KIND = "validity"
SEVERITY = "warning"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each resistance at 48 V power without a reading near nothing before it."""
    for breach in of_kind(case, "residual"):
        assert isinstance(breach.demand, ThingDemand)
        message = f"{does(breach)}, where up to a few volts may be left"
        help_ = f"add before it a `measure` of voltage with `limits: at most 0.5 V` on `{breach.demand.thing}`"
        yield fault_of(breach, case, message, "half a volt already falsifies a resistance", help_)
