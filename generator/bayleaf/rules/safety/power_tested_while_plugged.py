"""48 V power is tested with more than 100 V while it may be plugged in.

## Why it matters

The units of a 48 V supply are made for little more than 60 V, and its minus lies at the chassis. An insulation test with 250 V or
500 V destroys every control unit that is joined to the pins. A cable or a unit that is unplugged may be tested with more.

## Fails

Shown file by file in the tests: the starter generator of a 48 V supply is tested with 250 V, its plug in place.

## Passes

The same with 100 V, or with the plug out.

## Source

From memory: common practice; ISO 21780 was not at hand.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.premises import HIGHEST_AT_POWER
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind
from .test_voltage_above_rating import _volts as volts_of

KIND = "practice"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each plug that may be in its place while such a test is made at it."""
    for breach in of_kind(case, "power apart"):
        plug = getattr(breach.demand, "thing", "")
        message = f"{does(breach)} with {volts_of(breach)} while `{plug}` may be plugged in"
        help_ = f"add `unplug: {plug}` before it, on every path, or write at most {HIGHEST_AT_POWER} V"
        yield fault_of(breach, case, message, "the units of a 48 V supply do not stand such a test", help_)
