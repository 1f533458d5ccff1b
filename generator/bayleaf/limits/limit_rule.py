"""What a rule for limits is, and how the rules are found.

A module of `limits/rules/` holds `NAME`, as it is cited; `FITS`, the kinds of value that it is for; and `compute`, a
pure function from what is asked to what the rule asks for, or to the fact that is missing.
"""

import importlib
import pkgutil
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from ..diagnostics.place import Path
from ..model import actions
from ..model.cited import Cited, Computed
from ..model.procedure import Step
from ..model.vehicle import Vehicle


@dataclass(frozen=True, slots=True)
class Asked:
    """A rule as it is cited at a step, and the profile."""

    cited: Cited
    action: Any
    vehicle: Vehicle


@dataclass(frozen=True, slots=True)
class Lack:
    """Why a rule cannot be computed, and how to mend it.

    `key` is the key of the limits that is wrong or missing; `seen` is a place of the profile where a fact is missing,
    with what is there.
    """

    message: str
    help: str
    key: str = "rule"
    because: str | None = None
    seen: tuple[Path, str] | None = None


@dataclass(frozen=True, slots=True)
class LimitRule:
    """A rule. `page` is the docstring of its module."""

    name: str
    fits: frozenset[str]
    compute: Callable[[Asked], Computed | Lack]
    page: str


#: Steps whose limits a rule may compute. What proves a circuit dead is judged by the policy of the workshop and by the
#: voltage class, never by a computed figure.
MAY_CITE = (actions.Measure, actions.Read, actions.Compute)


@cache
def limit_rules() -> dict[str, LimitRule]:
    """Every rule there is, by name."""
    package = importlib.import_module(f"{__package__}.rules")
    found = {}
    for each in pkgutil.iter_modules(package.__path__):
        if not each.name.startswith("_"):
            module = importlib.import_module(f"{package.__name__}.{each.name}")
            found[module.NAME] = LimitRule(module.NAME, frozenset(module.FITS), module.compute, module.__doc__ or "")
    return found


def computed(step: Step, vehicle: Vehicle) -> Computed | Lack | None:
    """What the rule that a step cites asks for; None where it cites none, or one that does not fit the step."""
    cited = step.cited
    rule = limit_rules().get(cited.rule) if cited is not None else None
    if cited is None or rule is None or not fits(step, rule):
        return None
    try:
        return rule.compute(Asked(replace(cited, computed=None), step.action, vehicle))
    except ValueError as error:  # what a calculation refuses, in its own words
        return Lack(str(error), "write a figure that the vehicle can have, in the profile or beside the rule")


def fits(step: Step, rule: LimitRule) -> bool:
    """Whether a rule is for what a step reads."""
    return isinstance(step.action, MAY_CITE) and step.action.quantity in rule.fits
