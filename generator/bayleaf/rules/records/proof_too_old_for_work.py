"""Something was touched when its proof of being dead was older than a proof holds.

## Why it matters

Whoever proves a circuit dead at nine and reaches in at eleven relies on two hours in which nothing was closed, nothing shifted and
nobody came by. The workshop says how long a proof holds; 60 minutes where it says nothing. The page says so while the work is done.

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
  - {step: isolate/8, at: 2026-10-05 08:40, reading: 0.4 V, between: [X1/1 cable, X1/2 cable], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, at: 2026-10-05 08:41, reading: 0.2 V, between: [X1/1 cable, chassis], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, at: 2026-10-05 08:41, reading: 0.2 V, between: [X1/2 cable, chassis], limits: at most 5 V, verdict: dead}
  - {step: heater-off, at: 2026-10-05 09:45, done: yes} # <- step `heater-off` touches `traction` at 09:45, proved dead at 08:40, and a proof holds for 60 min
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
  - {step: isolate/8, at: 2026-10-05 08:40, reading: 0.4 V, between: [X1/1 cable, X1/2 cable], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, at: 2026-10-05 08:41, reading: 0.2 V, between: [X1/1 cable, chassis], limits: at most 5 V, verdict: dead}
  - {step: isolate/8, at: 2026-10-05 08:41, reading: 0.2 V, between: [X1/2 cable, chassis], limits: at most 5 V, verdict: dead}
  - {step: heater-off, at: 2026-10-05 09:20, done: yes}
```

## Source

A decision of this format (`policy: proof_holds`); EN 50110-1 asks that the proof is repeated after interruptions (from memory).
A proof is as old as its first reading. Records hold whole minutes, so the oldest that it may be counts. An entry without a time
is not judged.
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
        for name, proved in one.aged.items():
            if name not in told:
                told.add(name)
                yield Fault(
                    (*one.entry.at, "step"),
                    f"step `{'/'.join(one.entry.step)}` touches `{name}` at {_clock(one.entry.time or '', proved)}, proved dead at "
                    f"{_clock(proved, one.entry.time or '')}, and a proof holds for {float(case.proof_holds) / 60:g} min",
                    "meanwhile a source may have come back",
                    "prove it dead again before the time is over, and write the readings down",
                    data={"circuit": name, "proved": proved},
                )


def _clock(time: str, other: str) -> str:
    """The time of the day; with the day where the other is of another one."""
    return time[11:] if time[:10] == other[:10] else time
