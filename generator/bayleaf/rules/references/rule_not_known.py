"""A file waives a rule that does not exist.

## Why it matters

The warning that was to be waived is still there, and the reason that was written down explains nothing.

## Fails

```yaml fails procedure
waive:
  - rule: date-in-futur  # <- there is no rule `date-in-futur`
    why: It begins next month.
```

## Passes

```yaml passes procedure
title: A job with nothing to waive
```

## Source

The format of the files, version 1: `rule` is the name that stands beside the warning. `bayleaf explain`
lists them.
"""

from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model.procedure import Procedure
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ..rule import all_rules, rule_named

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every waiver."""
    yield from _faults(procedure)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The same of a profile."""
    yield from _faults(vehicle)


def _faults(file: Procedure | Vehicle) -> Iterator[Fault]:
    for waiver in file.waivers:
        if waiver.rule and rule_named(waiver.rule) is None:
            practice = [rule.name for rule in all_rules() if rule.kind == "practice"]
            meant = nearest(waiver.rule, practice) or nearest(waiver.rule, (rule.name for rule in all_rules()))
            help_ = f"did you mean `{meant}`?" if meant else "copy the name that stands beside the warning"
            yield Fault((*waiver.at, "rule"), f"there is no rule `{waiver.rule}`", help=help_)
