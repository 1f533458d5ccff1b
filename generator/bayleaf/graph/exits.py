"""Which exits a step has, and where each leads when nothing is written."""

from typing import Any

from ..model import actions
from ..model.procedure import NEXT, STOP, Step
from ..quantities.limit import Limit

#: Actions that can have more than one exit.
DECIDES: frozenset[type] = frozenset({
    actions.ProveDead, actions.ProveSafe, actions.Measure, actions.Read, actions.Compute, actions.Discharge,
    actions.Ask, actions.Perform,
})  # fmt: skip
#: Exits whose default is to go on; every other default is to stop.
GOES_ON = frozenset({"within", "dead", "end", NEXT})


_DEAD = ("dead", "not_dead", "not_decided")
_PLAIN = (NEXT,)


def exits_of(step: Step, comes_back: tuple[str, ...] = ("end",)) -> tuple[str, ...]:
    """The exits of a step. `comes_back` holds those of a performed procedure: its conclusions, "end" for none.

    A measurement without limits decides nothing: it has the one exit `next`. Limits that cannot be read, or that
    only a rule gives, may have both sides.
    """
    kind = step.action.__class__
    if kind not in DECIDES:
        return _PLAIN
    action: Any = step.action
    if kind is actions.ProveDead:
        return _DEAD
    if kind is actions.Perform:
        return comes_back
    if kind is actions.Ask:
        return tuple(answer.text for answer in action.answers)
    if action.limit is None and step.cited is None and not step.has_limits and kind is not actions.ProveSafe:
        return _PLAIN
    return _sides(action.limit)


def _sides(limit: Limit | None) -> tuple[str, ...]:
    """The exits of a comparison with a limit; both sides where the limit is not known."""
    exits = ["within"]
    if limit is None or limit.low is not None:
        exits.append("below")
    if limit is None or limit.high is not None:
        exits.append("above")
    return (*exits, "not_decided")


def default_target(step: Step, exit: str) -> str:
    """Where an exit leads for which nothing is written beside it: `then` or next, or stop."""
    return (step.then or NEXT) if exit in GOES_ON else STOP
