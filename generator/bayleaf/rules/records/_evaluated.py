"""The evaluation of a record, made once for all rules of this family."""

from collections.abc import Iterator

from ...model.record import Record
from ...records.evaluate import Evaluation, evaluate
from ...records.way import Followed
from ..case import Case
from ..references._memo import of_last


@of_last
def evaluated(record: Record, case: Case) -> Evaluation | None:
    """The evaluation; None where the record, the profile or the workshop file cannot be read as a whole.

    A procedure that cannot be read, or performs one that cannot, counts as another one than was worked by.
    """
    if record.broken or case.vehicle is None or case.workshop is None or case.workshop.broken:
        return None
    return evaluate(record, case.procedures, case.vehicle, case.workshop)


def entries(record: Record, case: Case) -> Iterator[Followed]:
    """The entries with what is said of them; none where nothing can be said."""
    found = evaluated(record, case)
    return iter(found.way.entries if found is not None else ())
