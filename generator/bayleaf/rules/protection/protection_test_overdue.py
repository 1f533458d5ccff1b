"""Protection of the workshop is past its test.

## Why it matters

What hangs in the cabinet is taken out when it is needed. Gloves, mats and shields whose test is overdue are taken out of
use, or tested, before somebody reaches for them.

## Fails

```yaml fails workshop
protection:
  gloves-0: {class: class 0, tested: 2026-08-01, interval: 6 months}
  gloves-1: {class: class 1, tested: 2025-11-10, interval: 6 months}  # <- the test of `gloves-1` was due on 2026-05-10
  mat: {name: Insulating mat, tested: 2025-10-01, interval: 12 months}  # <- the test of `mat` was due on 2026-10-01
  over-gloves: {kind: over-gloves}
  face-shield: {kind: face shield}
```

## Passes

```yaml passes workshop
protection:
  gloves-0: {class: class 0, tested: 2026-08-01, interval: 6 months}
  gloves-1: {class: class 1, tested: 2026-05-10, interval: 6 months}
  over-gloves: {kind: over-gloves}
  face-shield: {kind: face shield}
```

## Source

29 CFR 1910.137, Table I-5: every 6 months after issue; IEC 60903:2014, as quoted by a test house.
"""

from collections.abc import Iterator

from ...model.workshop import Workshop
from ..case import Case
from ..fault import Fault
from ._dates import protection

KIND = "practice"
SEVERITY = "warning"


def check_workshop(workshop: Workshop, case: Case) -> Iterator[Fault]:
    """Gloves need both keys; other protection is judged where it has one of them."""
    if workshop.broken:
        return
    for one in workshop.protection.values():
        dated = protection(one)
        late = dated.late(case.today)
        if late is not None and (one.glove_class or one.tested or one.interval):
            because = "what hangs in the cabinet is taken out when it is needed"
            at = (*one.at, "tested") if one.tested else one.at
            yield Fault(at, late, because, dated.help("6 months"), key=one.tested is None)
