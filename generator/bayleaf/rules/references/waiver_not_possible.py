"""A file waives a rule that cannot be waived.

## Why it matters

What endangers people, makes a reading worthless or cannot be read does not become better by a reason.
Only a warning about good practice can be answered with one.

## Fails

```yaml fails procedure
waive:
  - rule: circuit-not-in-profile  # <- `circuit-not-in-profile` cannot be waived
    why: The circuit is described elsewhere.
```

## Passes

```yaml passes procedure
title: A job with nothing to waive
```

## Source

The format of the files, version 1: of the four classes of rules (danger, validity, practice, form) only
practice can be waived, and the reason is printed in every report.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ..rule import rule_named

KIND = "form"
SEVERITY = "error"

_BECAUSE = {
    "danger": "it reports a danger to people",
    "validity": "it reports a reading that is worth nothing",
    "form": "it reports what cannot be read or found",
}


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every waiver of a rule that exists."""
    yield from _faults(procedure)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The same of a profile."""
    yield from _faults(vehicle)


def _faults(file: Procedure | Vehicle) -> Iterator[Fault]:
    for waiver in file.waivers:
        rule = rule_named(waiver.rule)
        if rule is not None and rule.kind != "practice":
            yield Fault(
                (*waiver.at, "rule"),
                f"`{rule.name}` cannot be waived",
                f"{_BECAUSE[rule.kind]}; only warnings about practice can be waived",
                "take the waiver out, and change what the rule reports",
            )
