"""Runs the rules over one file and stamps places, names and classes on what they find."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from itertools import chain
from typing import Any

from ..diagnostics.finding import Finding, See
from ..diagnostics.place import Path, Place
from ..model.free_page import FreePage
from ..model.procedure import Procedure
from ..model.record import Record
from ..model.vehicle import Vehicle
from ..model.workshop import Workshop
from .case import Case
from .fault import Fault
from .rule import Check, Rule, all_rules
from .waive import waived

#: Gives the place of a path in a file of the manual: (file, path, key, span).
Locate = Callable[[str, Path, bool, tuple[int, int] | None], Place]

_CHECK_OF: Mapping[type[Any], str] = {
    Vehicle: "check_vehicle",
    Procedure: "check_procedure",
    Workshop: "check_workshop",
    Record: "check_record",
    FreePage: "check_page",
}


@cache
def _checks(name: str) -> tuple[tuple[Rule, Check], ...]:
    """The checks of one kind, with their rules; those that tell what the walk found are apart."""
    rules = (rule for rule in all_rules() if not rule.needs_walk)
    return tuple((rule, check) for rule in rules for kind, check in rule.checks if kind == name)


@cache
def _walk_checks() -> tuple[tuple[Rule, Check], ...]:
    """The checks that tell what the walk found."""
    return tuple((rule, check) for rule in all_rules() if rule.needs_walk for _, check in rule.checks)


@cache
def _step_checks(action: Any) -> tuple[tuple[Rule, Check], ...]:
    """The checks of a step that has this action."""
    return tuple((rule, check) for rule, check in _checks("check_step") if rule.steps is None or action in rule.steps)


def run_rules(model: Any, case: Case, locate: Locate) -> Iterator[Finding]:
    """What the rules find in one file; what it waives is advice."""
    findings = _run(model, case, locate)
    return waived(findings, model) if isinstance(model, Procedure | Vehicle) and model.waivers else findings


def run_walk_rules(procedure: Procedure, case: Case, locate: Locate) -> Iterator[Finding]:
    """What the walk found in a procedure, told by the rules; what it waives is advice."""
    if case.walked:
        checks = _walk_checks()
        found = (_stamped(check(procedure, case), rule, procedure.file, locate) for rule, check in checks)
        yield from waived(chain.from_iterable(found), procedure)


def _run(model: Any, case: Case, locate: Locate) -> Iterator[Finding]:
    """What the rules find. Steps that could not be read are passed over."""
    for rule, check in _checks(_CHECK_OF[type(model)]):
        if not (rule.needs_flow and case.graph is None):
            yield from _stamped(check(model, case), rule, model.file, locate)
    if isinstance(model, Procedure):
        for step in model.steps:
            if not step.broken:
                action: Any = type(step.action)
                for rule, check in _step_checks(action):
                    yield from _stamped(check(step, model, case), rule, model.file, locate)


def _stamped(faults: Iterable[Fault], rule: Rule, file: str, locate: Locate) -> Iterator[Finding]:
    for fault in faults:
        yield Finding(
            rule=rule.name,
            place=locate(file, fault.at, fault.key, fault.span),
            message=fault.message,
            because=fault.because,
            help=fault.help,
            see=tuple(See(locate(spot.file, spot.at, spot.key, None), spot.text) for spot in fault.see),
            kind=rule.kind,
            severity=rule.severity,
            data=fault.data,
        )
