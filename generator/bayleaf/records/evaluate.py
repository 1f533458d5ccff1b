"""A record evaluated: held against the procedure it was worked by, and every reading judged anew."""

from collections.abc import Mapping
from dataclasses import dataclass

from ..model.procedure import Procedure
from ..model.record import Record
from ..model.vehicle import Vehicle
from ..model.workshop import Workshop
from .follow import follow
from .surroundings import Surroundings, surroundings_of
from .way import Way


@dataclass(frozen=True, slots=True)
class Evaluation:
    """A record, what it is held against, and what is said of it."""

    record: Record
    around: Surroundings
    way: Way


def evaluate(record: Record, known: Mapping[str, Procedure], vehicle: Vehicle | None, workshop: Workshop) -> Evaluation:
    """The evaluation of a record. `known` are the procedures by id, with the limits that rules compute filled in."""
    around = surroundings_of(record, known, vehicle, workshop)
    return Evaluation(record, around, follow(record, around))
