"""For which versions of a vehicle a procedure has to be looked at one by one."""

from ..model.procedure import Procedure
from ..model.vehicle import Vehicle

#: Stands for the vehicles that are none of the variants of their profile; no variant has an empty name.
NO_VARIANT = ""


def variants_of(procedure: Procedure, vehicle: Vehicle | None) -> tuple[str | None, ...]:
    """The variants whose paths differ: only None, for all alike, where no step is only for some.

    A profile with one variant tells it from the vehicles without it; with several, the list is complete. What a
    procedure does not apply to does not occur. A name that the profile does not have is reported by its own rule
    and counts as a variant here.
    """
    asked = tuple(dict.fromkeys(name for step in procedure.steps for name in step.only_for))
    if not asked:
        return (None,)
    listed = tuple(vehicle.variants) if vehicle is not None else ()
    names = procedure.variants or (listed if len(listed) > 1 else (*listed, NO_VARIANT))
    return (*names, *(name for name in asked if name not in listed and name not in names))
