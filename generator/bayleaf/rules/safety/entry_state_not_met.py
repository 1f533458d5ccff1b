"""A procedure is performed before the vehicle is as it expects.

## Why it matters

A procedure with `expects` begins in the middle: it counts on what was done before. Performed too early, its first step meets
a circuit that is still live.

## Fails

Shown file by file in the tests: `procedures/test-van/close.yml` expects the traction bus to be waited, and `job.yml` performs
it first.

## Passes

The same after `perform: test-van/isolate`.

## Source

A decision of this format.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import MAY_BE, circuit_of, fault_of, of_kind, step_words

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each performed procedure of which an expectation may not be met."""
    for breach in of_kind(case, "expects"):
        circuit = circuit_of(breach, case)
        spot = breach.spots[-1]
        assert breach.word is not None
        where = step_words(spot, len(breach.spots) > 1)
        callee = getattr(spot.step.action, "procedure", "")
        message = f"{where} performs `{callee}` while {circuit.name} may be {MAY_BE[breach.word]}"
        yield fault_of(breach, case, message, f"it expects `{circuit.id}` to be {breach.demand.name} when it is begun")
