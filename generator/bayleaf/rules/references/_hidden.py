"""Whether a procedure may hold names that could not be read."""

from ...model.procedure import Procedure


def hides_entries(procedure: Procedure) -> bool:
    """Whether something beside steps and conclusions has a fault of shape: an entry may be missing for it."""
    return procedure.broken and not (
        any(step.broken for step in procedure.steps) or any(end.broken for end in procedure.conclusions.values())
    )


def hides_ids(procedure: Procedure) -> bool:
    """Whether there may be a step or a conclusion whose name could not be read."""
    return procedure.broken and (
        hides_entries(procedure) or any(step.broken and step.id is None for step in procedure.steps)
    )
