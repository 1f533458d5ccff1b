"""A 12 or 24 V terminal is undone, or tightened, while the vehicle may be on.

## Why it matters

Fused low voltage is no danger to touch. But a terminal that is lifted under load draws an arc, and a spanner that slips while
control units are awake costs them. The battery may stay connected; the vehicle is off.

## Fails

Shown file by file in the tests: a ground terminal is loosened with the ignition on.

## Passes

The same after `set: {mode: off}`.

## Source

Common practice.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind

KIND = "practice"
SEVERITY = "warning"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each terminal of a fused low-voltage circuit that is worked on while the vehicle may be on."""
    for breach in of_kind(case, "low"):
        message = f"{does(breach)} while the vehicle may be on"
        help_ = "add `set: {mode: off}` before it, on every path"
        yield fault_of(breach, case, message, "a terminal lifted under load draws an arc", help_)
