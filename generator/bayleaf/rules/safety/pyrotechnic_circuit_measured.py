"""An instrument is put to a circuit of airbags or belt tensioners.

## Why it matters

The current of an ohmmeter can fire a squib. Such a circuit is disconnected, left for the maker's time, and unplugged; it is
never measured. The control unit of the restraints reads its squibs itself, and the scan tool shows what it read.

## Fails

Shown file by file in the tests: the resistance of a squib is measured, disconnected and waited.

## Passes

The same value read on the scan tool.

## Source

Common practice of every maker.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.pins import circuits_at, contacts_of
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault

KIND = "danger"
SEVERITY = "error"
STEPS = (actions.Measure,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The first contact of such a circuit, whatever is measured."""
    measured: actions.Measure = step.action  # type: ignore[assignment]
    if case.vehicle is None:
        return
    for contact in contacts_of(measured):
        for name in circuits_at((contact,), case.vehicle):
            circuit = case.vehicle.circuits.get(name)
            if circuit is not None and circuit.energy == "pyrotechnic":
                yield Fault(
                    (*step.at, "between" if measured.pairs else "at"),
                    f"{circuit.name} is measured at `{contact}`",
                    "the current of an instrument can fire it",
                    "read it on the scan tool: `read` instead of `measure`",
                )
                return
