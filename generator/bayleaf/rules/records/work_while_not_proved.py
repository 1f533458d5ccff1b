"""After a break, or from a barred exit on, something was touched that did not count as dead any more.

## Why it matters

While nobody watches, a lock can be taken off and a source put back. So a proof ends with a break, with a hand-over, and where the
work leaves the way of the procedure. Before anything is touched the circuit is proved dead anew.

## Fails

The procedure and the record, shown file by file:

```yaml fails beside procedure
steps:
  - id: isolate
    perform: test-van/isolate
  - id: heater-off
    unplug: X7
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

```yaml fails beside record
entries:
  - {step: isolate/8, reading: 0.4 V, between: [X1/1 cable, X1/2 cable], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, reading: 0.2 V, between: [X1/1 cable, chassis], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, reading: 0.2 V, between: [X1/2 cable, chassis], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, paused: break}
  - {step: heater-off, done: yes} # <- step `heater-off` touches `traction`, not proved dead again since work was broken off
```

## Passes

```yaml passes beside procedure
steps:
  - id: isolate
    perform: test-van/isolate
  - id: heater-off
    unplug: X7
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

```yaml passes beside record
entries:
  - {step: isolate/8, reading: 0.4 V, between: [X1/1 cable, X1/2 cable], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, reading: 0.2 V, between: [X1/1 cable, chassis], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, reading: 0.2 V, between: [X1/2 cable, chassis], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, paused: break}
  - {step: isolate/8, reading: 0.4 V, between: [X1/1 cable, X1/2 cable], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, reading: 0.2 V, between: [X1/1 cable, chassis], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, reading: 0.2 V, between: [X1/2 cable, chassis], limits: at most 5 V, verdict: dead}
  - {step: heater-off, done: yes}
```

## Source

EN 50110-1, 6.2 (the state is proved again where the place was left; from memory); common practice.
"""

from collections.abc import Iterator

from ...model.record import Record
from ..case import Case
from ..fault import Fault
from ._evaluated import entries

KIND = "danger"
SEVERITY = "warning"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """The first entry for each circuit until it is proved again."""
    told: set[str] = set()
    for one in entries(record, case):
        told &= set(one.lost)
        fresh = [name for name in one.unproved if name not in told and name not in one.aged]
        told.update(fresh)
        if fresh:
            names = " and ".join(f"`{name}`" for name in fresh)
            yield Fault(
                (*one.entry.at, "step"),
                f"step `{'/'.join(one.entry.step)}` touches {names}, not proved dead again since work was broken off",
                "while nobody watched, a source may have come back",
                "prove it dead after every break and every barred exit, and write the readings down",
            )
