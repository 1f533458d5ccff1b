"""An instrument of the workshop is past its calibration.

## Why it matters

A reading is within its limits only as far as the instrument can be trusted, and a screw is tight only as far as the
wrench can. Two-pole voltage testers are judged where they prove a circuit dead, and there it is an error.

## Fails

```yaml fails workshop
instruments:
  voltage-tester:
    name: Two-pole tester
    kind: two-pole voltage tester
    category: CAT III 1000 V
    highest_dc: 1200 V
    calibrated: 2026-10-05
    interval: 12 months
    functions:
      dc voltage:
        - {range: 100 V, resolution: 0.1 V, accuracy: 2.0 % + 3 digits}
  torque-wrench-small:
    name: Small torque wrench
    kind: torque wrench
    calibrated: 2025-07-06  # <- the calibration of `torque-wrench-small` was due on 2026-07-06
    interval: 12 months
```

## Passes

```yaml passes workshop
instruments:
  voltage-tester:
    name: Two-pole tester
    kind: two-pole voltage tester
    category: CAT III 1000 V
    highest_dc: 1200 V
    calibrated: 2026-10-05
    interval: 12 months
    functions:
      dc voltage:
        - {range: 100 V, resolution: 0.1 V, accuracy: 2.0 % + 3 digits}
  torque-wrench-small:
    name: Small torque wrench
    kind: torque wrench
    calibrated: 2026-07-06
    interval: 12 months
```

## Source

ISO/IEC 17025:2017, 6.4 (measuring equipment; clause from memory) and ISO 6789 (hand torque tools: 12 months or 5000 uses;
from memory).
"""

from collections.abc import Iterator

from ...model.workshop import Workshop
from ..case import Case
from ..fault import Fault
from ._dates import instrument

KIND = "practice"
SEVERITY = "warning"


def check_workshop(workshop: Workshop, case: Case) -> Iterator[Fault]:
    """Instruments that have a date or an interval: where only one of the two stands, nobody knows when it is due."""
    if workshop.broken:
        return
    for one in workshop.instruments.values():
        dated = instrument(one)
        late = dated.late(case.today)
        if late is not None and (one.calibrated or one.interval) and one.kind != "two-pole voltage tester":
            at = (*one.at, "calibrated") if one.calibrated else one.at
            because = "no verdict on a reading is better than the instrument behind it"
            yield Fault(at, late, because, dated.help("12 months"), key=one.calibrated is None)
