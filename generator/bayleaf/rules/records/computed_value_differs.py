"""A computed value in a record is not what its readings give.

## Why it matters

A value that is computed from readings is no better than the computing. Whoever writes it down from a note or from memory decides
by a figure that nothing on the vehicle has shown.

It may be rounded: it agrees within half of its last digit.

## Fails

The procedure and the record, shown file by file:

```yaml fails beside procedure
steps:
  - id: before
    read: Pressure with the pump off
    quantity: pressure
  - id: after
    read: Pressure with the pump on
    quantity: pressure
  - id: rise
    compute: Rise of the pressure
    formula: difference
    quantity: pressure
    of: [after, before]
```

```yaml fails beside record
entries:
  - {step: before, reading: 0.4 bar}
  - {step: after, reading: 1.3 bar}
  - {step: rise, reading: 1.1 bar} # <- the readings of the record give 0.9 bar, not 1.1 bar
```

## Passes

```yaml passes beside procedure
steps:
  - id: before
    read: Pressure with the pump off
    quantity: pressure
  - id: after
    read: Pressure with the pump on
    quantity: pressure
  - id: rise
    compute: Rise of the pressure
    formula: difference
    quantity: pressure
    of: [after, before]
```

```yaml passes beside record
entries:
  - {step: before, reading: 0.4 bar}
  - {step: after, reading: 1.3 bar}
  - {step: rise, reading: 0.9 bar}
```

## Source

The formulas of the manual: difference, parallel, average, insulation by voltmeter.
"""

from collections.abc import Iterator

from ...model.record import Record
from ...records.computed import agrees
from ...records.words import size
from ..case import Case
from ..fault import Fault
from ._evaluated import entries

KIND = "validity"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Every value of a computing step whose readings stand in the record."""
    for one in entries(record, case):
        found, entered = one.computed, one.entry.reading
        if found is None or found.size is None or entered is None:
            continue
        if one.weighed is None or one.weighed.strange is not None or agrees(entered, found.size):
            continue
        yield Fault(
            (*one.entry.at, "reading"),
            f"the readings of the record give {size(found.size, entered.unit.symbol)}, not {entered}",
            "what follows is decided by this figure",
            "compute it again from the readings; if one of them was written wrong, put that right",
        )
