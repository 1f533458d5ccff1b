"""A rule as a value, and how the rules are found.

A module of a rule holds:

- the docstring: a title line, then the sections "Why it matters", "Fails", "Passes", "Source";
- `KIND`: danger, validity, practice or form, and `SEVERITY`: error, warning or advice;
- one or more checks, each a function that yields faults:
  `check_step(step, procedure, case)`, `check_procedure(procedure, case)`, `check_vehicle(vehicle, case)`,
  `check_workshop(workshop, case)`, `check_record(record, case)`, `check_page(page, case)`;
- for `check_step`, `STEPS`: the classes of action that it looks at (None: all);
- `NEEDS_FLOW = True` where `check_procedure` looks at the graph;
- `NEEDS_WALK = True` where it tells what the walk found: it runs last, and only where nothing it rests on has a fault.

A fault of form that is found while a file is read has a module too, for its page, but no check in it.
"""

import importlib
import pkgutil
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache
from typing import Any

from ..diagnostics.finding import Kind, Severity
from .fault import Fault

Check = Callable[..., Iterable[Fault]]

#: The names of the functions that a module of a rule may hold.
CHECKS = ("check_step", "check_procedure", "check_vehicle", "check_workshop", "check_record", "check_page")


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule. `page` is its manual page, `steps` the actions that its check of steps looks at."""

    name: str
    family: str
    kind: Kind
    severity: Severity
    page: str
    checks: tuple[tuple[str, Check], ...]
    steps: tuple[type[Any], ...] | None
    needs_flow: bool
    needs_walk: bool

    @property
    def title(self) -> str:
        """The first line of the page."""
        return self.page.split("\n", 1)[0].rstrip(".")


@cache
def all_rules() -> tuple[Rule, ...]:
    """Every rule there is, by name."""
    package = importlib.import_module(__package__ or "bayleaf.rules")
    rules = []
    for family in pkgutil.iter_modules(package.__path__):
        if family.ispkg:
            folder = importlib.import_module(f"{package.__name__}.{family.name}")
            for found in pkgutil.iter_modules(folder.__path__):
                if not found.name.startswith("_"):
                    module = importlib.import_module(f"{folder.__name__}.{found.name}")
                    rules.append(_rule(found.name, family.name, module))
    return tuple(sorted(rules, key=lambda rule: rule.name))


@cache
def rule_named(name: str) -> Rule | None:
    """The rule of this name, or None."""
    return next((rule for rule in all_rules() if rule.name == name), None)


def _rule(name: str, family: str, module: Any) -> Rule:
    return Rule(
        name=name.replace("_", "-"),
        family=family,
        kind=module.KIND,
        severity=module.SEVERITY,
        page=(module.__doc__ or "").strip(),
        checks=tuple((check, getattr(module, check)) for check in CHECKS if hasattr(module, check)),
        steps=getattr(module, "STEPS", None),
        needs_flow=getattr(module, "NEEDS_FLOW", False),
        needs_walk=getattr(module, "NEEDS_WALK", False),
    )
