"""How many people a step is for, and where that is written."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from ...diagnostics.place import Path
from ...model.procedure import Procedure, Step
from ..fault import Fault, Spot

HELP = "write `people: 2` at the step, or `people: {at_least: 2, who: …}` for the whole procedure"


def is_alone(step: Step, procedure: Procedure) -> bool:
    """Whether one person does a step: `people` of the step, else of the procedure, is below 2 or says nothing."""
    return (step.people or procedure.people or 1) < 2


def blamed(step: Step, procedure: Procedure) -> Path | None:
    """Where the number of people is written; None where it is written nowhere."""
    if step.people is not None:
        return (*step.at, "people")
    return ("people", "at_least") if procedure.people is not None else None


def together(faults: Iterable[tuple[Step, Fault]], procedure: Procedure) -> Iterator[Fault]:
    """One fault for each place at which the number is written, with the steps beside it.

    A number that is written nowhere is one mistake however many steps there are.
    """
    groups: dict[Path | None, list[tuple[Step, Fault]]] = {}
    for step, fault in faults:
        groups.setdefault(blamed(step, procedure), []).append((step, fault))
    for at, same in groups.items():
        first = same[0][1]
        others = [fault.at for _, fault in same]
        if at is None:
            at, *others = others
        elif at != ("people", "at_least"):
            others = []
        more = len(others) - 3
        spots = [Spot(procedure.file, place, "here", key=True) for place in (others if more <= 1 else others[:3])]
        if more > 1:
            spots[-1] = spots[-1]._replace(text=f"here, and at {more} more places")
        yield replace(first, at=at, key=at == first.at, see=(*first.see, *spots))


def of_step(step: Step) -> Path:
    """The place of what a step does."""
    return (*step.at, step.action.key)
