"""Which faults a procedure reckons with: those that it names, and those that its trouble codes announce."""

from collections.abc import Iterable

from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from .rig import CONTACTOR_STUCK

#: What standardised codes announce, where the profile does not say otherwise. Source: SAE J2012 (from memory).
_ANNOUNCED = {
    "P0AA1": CONTACTOR_STUCK,
    "P0AA4": CONTACTOR_STUCK,
    "P0AA6": "insulation fault",
}


def present_faults(procedure: Procedure, vehicle: Vehicle) -> frozenset[str]:
    """The faults that may be there while the procedure is done."""
    return frozenset(procedure.faults) | announced_by(procedure.trouble_codes, vehicle)


def announced_by(codes: Iterable[str], vehicle: Vehicle) -> frozenset[str]:
    """The faults that trouble codes announce."""
    found = set()
    for code in codes:
        meaning = vehicle.codes.get(code)
        announced = _ANNOUNCED.get(code.split("-")[0]) if meaning is None else meaning.fault
        if announced is not None:
            found.add(announced)
    return frozenset(found)


def announces_stuck(procedure: Procedure, vehicle: Vehicle) -> bool:
    """Whether a contactor may be stuck closed."""
    return CONTACTOR_STUCK in present_faults(procedure, vehicle)
