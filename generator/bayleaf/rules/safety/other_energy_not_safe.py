"""A circuit under pressure, heat or another energy is opened before it is safe.

## Why it matters

Hot coolant, refrigerant, compressed air, a squib, a raised vehicle: each hurts at once when it is let out unasked. What feeds it is
off, it has had its time, and its gauge has been read as safe, on every path that leads to the step.

Gas is let out by its own vent or drawn off by a station, and only then can its gauge be read as safe. So `drain` of a circuit of
which the profile says `gas: yes` asks only that its source is off; whatever opens it afterwards asks for the reading. The same
holds for `fill`, and the reading counts no more behind it. It holds too where a liquid's circuit is pumped up, for a test of
tightness: write the pressure as `amount` of the `fill`. A reading that is not within its limits takes an earlier one away: a gauge
that creeps up after it has stood at 0 tells that the pressure comes back.

## Fails

```yaml fails procedure whole
format: 1
id: test-van/job
title: Drain the coolant
kind: repair
revisions:
  - {number: 1, date: 2026-09-30, why: First version}
steps:
  - drain: heater-coolant # <- step 1 drains `heater-coolant` while Heater coolant may still be fed: the vehicle may be on
```

## Passes

```yaml passes procedure whole
format: 1
id: test-van/job
title: Drain the coolant
kind: repair
revisions:
  - {number: 1, date: 2026-09-30, why: First version}
steps:
  - set: {mode: off}
  - prove_safe: heater-coolant
    using: multimeter
  - drain: heater-coolant
```

## Source

Common practice; NFPA 70E, 120.5 (release or block stored mechanical energy; 2018 edition, from a trade journal).
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import circuit_of, does, fault_of, of_kind

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each step that opens a circuit of another energy that may not be safe."""
    for breach in of_kind(case, "touch"):
        circuit = circuit_of(breach, case)
        if circuit.energy != "electrical" and breach.lacks is not None and not breach.lacks.never:
            missing = _missing(breach.lacks.open, breach.lacks.pairs)
            message = f"{does(breach)} while {circuit.name} {missing}"
            yield fault_of(breach, case, message, f"`{circuit.id}` holds energy ({circuit.energy})")


def _missing(open_: tuple[str, ...], pairs: tuple[str, ...]) -> str:
    """What may be wrong with it."""
    if open_:
        return "may still be fed" if open_ != ("mode-off",) else "may still be fed: the vehicle may be on"
    return f"may not have been read as safe ({', '.join(pairs)})" if pairs else "may not have had its time"
