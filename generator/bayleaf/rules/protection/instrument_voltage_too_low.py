"""An instrument is put to a voltage that it does not stand.

## Why it matters

Above the voltage of its inputs an instrument can break down inside, burst, or put the voltage on the hand that holds it.
The measuring category names an AC voltage; what the inputs stand in DC is another figure and is written beside it. Of an
instrument that says neither, nothing is known. CAT II, III and IV are not told apart: II is for what is plugged into the mains,
as a vehicle on its charge lead is.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
instruments:
  tester:
    name: Tester
    kind: two-pole voltage tester
    category: CAT III 300 V
    highest_dc: 1200 V
    calibrated: 2026-10-05
    interval: 12 months
    functions:
      dc voltage:
        - {range: 100 V, resolution: 0.1 V, accuracy: 2.0 % + 3 digits}
```

```yaml fails beside procedure
kind: isolation
leaves: {traction: proved dead, supply-12: disconnected}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - disconnect: service-plug
  - secure: [charge-lead, service-plug]
  - wait: 5 min
    for: [traction]
  - remove: inverter-cover
  - prove_dead: traction
    using: tester  # <- `tester` is good for 300 V by its measuring category, but `traction` has up to 410 V DC
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
```

## Passes

```yaml passes procedure
kind: isolation
leaves: {traction: proved dead, supply-12: disconnected}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - disconnect: service-plug
  - secure: [charge-lead, service-plug]
  - wait: 5 min
    for: [traction]
  - remove: inverter-cover
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
```

## Source

IEC 61010-1 and IEC 61010-031 (rating of inputs and probes; from memory); HSE GS38 (what the categories are for); that the
highest DC input is a figure of its own, from a manual of an instrument.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.workshop import Instrument
from ..case import Case
from ..fault import Fault, Spot
from ..once import once
from ._instruments import category_voltage, instrument_readings
from ._steps import Reading, has, highest

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every instrument that is put to class B or to 48 V power."""
    yield from once(_faults(procedure, case), procedure.file)


def _faults(procedure: Procedure, case: Case) -> Iterator[Fault]:
    for reading, instrument in instrument_readings(procedure, case):
        found = _stands(reading, instrument)
        if found is not None and case.workshop is not None:
            key, says = found
            at = ("instruments", instrument.id)
            written = getattr(instrument, key) is not None
            spot = Spot(case.workshop.file, (*at, key) if written else at, "what it stands", key=not written)
            yield Fault(
                (*reading.step.at, "using"),
                f"{says}, but {has(reading.circuit)}",
                "above that voltage it can break down inside, or put the voltage on the hand",
                _help(key, written, reading),
                see=(spot,),
            )


def _stands(reading: Reading, instrument: Instrument) -> tuple[str, str] | None:
    """The key that is too low or missing, and what is said of it. Missing figures are asked for at class B only."""
    volts, kind = highest(reading.circuit)
    category = category_voltage(instrument)
    name = f"`{instrument.id}`"
    if category is not None and category.si < volts:
        return "category", f"{name} is good for {category} by its measuring category"
    if kind == "dc" and instrument.highest_dc is not None and instrument.highest_dc.si < volts:
        return "highest_dc", f"{name} stands {instrument.highest_dc} DC at its inputs"
    if not reading.circuit.is_class_b:
        return None
    if category is None:
        return "category", f"of {name} no voltage of a measuring category is known"
    if kind == "dc" and instrument.highest_dc is None:
        return "highest_dc", f"of {name} the highest DC input is not known"
    return None


def _help(key: str, written: bool, reading: Reading) -> str:
    if written:
        return "use an instrument that stands the voltage"
    example = "category: CAT III 1000 V" if key == "category" else "highest_dc: 1000 V"
    return f"add what is printed beside the inputs of `{reading.using}`, such as `{example}`, or use another instrument"
