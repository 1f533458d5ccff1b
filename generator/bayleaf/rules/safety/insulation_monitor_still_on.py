"""The insulation is tested while the insulation monitor may still be joined to the piece.

## Why it matters

A monitor ties both poles to the chassis through its own measuring resistors, often less than 1 MΩ. It is read along, and a
sound bus looks faulty; the test voltage can destroy it. The point that takes it off has to be open, or the tested side
unplugged.

## Fails

Shown file by file in the tests: the monitor of the traction bus has a fuse of its own, which nobody has drawn.

## Passes

The same with the fuse drawn before the test, or with the tested unit unplugged.

## Source

Common practice; the profile (`monitor`) follows the maker of the vehicle.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.premises import Premise
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind

KIND = "validity"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each circuit of which the monitor may be read along."""
    for breach in of_kind(case, "monitor off"):
        assert isinstance(breach.demand, Premise) and case.vehicle is not None
        circuit = case.vehicle.circuits[breach.demand.circuit]
        message = f"{does(breach)} while the insulation monitor of `{circuit.id}` may still be on"
        ways = circuit.monitor.taken_off_by if circuit.monitor is not None else ()
        points = ", ".join(ways[0]) if ways else ""
        help_ = (
            f"add `disconnect: [{points}]` before it, on every path" if points else "unplug the tested part before it"
        )
        yield fault_of(
            breach, case, message, "its measuring resistors are read along, and the test can destroy it", help_
        )
