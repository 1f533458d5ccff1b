"""Whether what is worn, or owned, is enough for the voltage."""

from collections.abc import Iterator, Mapping

from ...diagnostics.place import Path
from ...model import actions
from ...model.procedure import Step
from ...model.vehicle import Circuit
from ...model.workshop import Protection, Workshop
from ...safety.protection import GLOVE_CLASSES, VoltageKind, glove_class_named
from ..case import Case
from ._dates import protection
from ._steps import highest, is_live_reading

#: Steps at which a circuit of class B is opened, closed or proved.
_PROVING = (actions.ProveDead, actions.Discharge, actions.Disconnect, actions.Reconnect, actions.Remove)


def workshop_of(case: Case) -> Workshop | None:
    """The workshop file, where it could be read in every part: of what is spoilt nothing more is said."""
    return case.workshop if case.workshop is not None and not case.workshop.broken else None


def is_proving(step: Step) -> bool:
    """Whether bare conductors that are not yet proved dead may be met here in the course of the work."""
    return isinstance(step.action, _PROVING) or is_live_reading(step)


def worn(step: Step, workshop: Workshop) -> Iterator[tuple[Path, Protection]]:
    """What is worn at a step, with its path; what the workshop does not list is reported elsewhere."""
    for index, name in enumerate(step.wear):
        one = workshop.protection.get(name)
        if one is not None:
            yield ((*step.at, "wear", index) if len(step.wear) > 1 else (*step.at, "wear")), one


def stands_up_to(one: Protection, kind: VoltageKind) -> int | float | None:
    """The voltage up to which a piece of protection may be used; None where it has neither class nor voltage."""
    found = glove_class_named(one.glove_class)
    if found is not None:
        return found.dc if kind == "dc" else found.ac
    return None if one.voltage is None else float(one.voltage.si)


def too_weak_for(one: Protection, circuits: tuple[Circuit, ...]) -> Circuit | None:
    """The first circuit whose voltage is above what a piece of protection stands."""
    for circuit in circuits:
        volts, kind = highest(circuit)
        stands = stands_up_to(one, kind)
        if stands is not None and stands < volts:
            return circuit
    return None


def fitting(circuits: tuple[Circuit, ...], owned: Mapping[str, Protection]) -> str:
    """The gloves of the workshop that are strong enough, or the class that would be."""
    names = [f"`{one.id}`" for one in owned.values() if one.glove_class and too_weak_for(one, circuits) is None]
    return f"wear {' or '.join(names)}" if names else f"wear gloves of {class_for(circuits)} or higher"


def class_for(circuits: tuple[Circuit, ...]) -> str:
    """The lowest class that is enough for every circuit."""
    for one in GLOVE_CLASSES:
        if all(one.stands(*highest(circuit)) for circuit in circuits):
            return f"class {one.name}"
    return "a class above 4, which does not exist"


def in_date(one: Protection, case: Case) -> bool:
    """Whether the test of a piece of protection is not overdue."""
    return protection(one).late(case.today) is None
