"""The stated waiting time is shorter than the computed one.

## Why it matters

Capacitors keep their voltage when all sources are off. How long it takes to fall to a safe one follows from capacitance,
bleed resistance and highest voltage. Where the time of the maker is shorter than that, one of the four figures is
wrong, or it counts on an active discharge, which may have failed.

## Fails

```yaml fails vehicle
circuits:
  heater-link:
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: none
      converter: none
      external: none
    monitor: none
    stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 90 s} # <- the stated wait of `90 s` is shorter than the computed one, 126 s
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

## Passes

```yaml passes vehicle
circuits:
  heater-link:
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: none
      converter: none
      external: none
    monitor: none
    stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 150 s}
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

## Source

t = R·C·ln(U0/U), the charge law of a capacitor. UN R100, definition of high voltage: 60 V DC, 30 V AC. Where no
tolerance is written, 20 % more capacitance and 5 % more resistance (from memory: common tolerances). UK HSE: the maker's
time goes before any computed one that is shorter.
"""

from collections.abc import Iterator
from math import ceil

from ...model.vehicle import Circuit, Vehicle
from ...safety.wait import Wait, required_wait
from ..case import Case
from ..fault import Fault
from ._circuits import electrical, listed

KIND = "danger"
SEVERITY = "error"

_MORE = {"capacitance": "20 % more capacitance", "bleed": "5 % more resistance"}


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Holds the time of the maker against the formula."""
    for circuit in electrical(vehicle):
        wait = required_wait(circuit)
        if wait.stated is not None and wait.computed is not None and wait.stated < wait.computed:
            yield _fault(circuit, wait, ceil(wait.computed))


def _fault(circuit: Circuit, wait: Wait, seconds: int) -> Fault:
    assert circuit.stored is not None and wait.capacitance is not None and wait.bleed is not None
    at_worst = f"{_farads(wait.capacitance)} and {_ohms(wait.bleed)} at worst"
    if wait.assumed:
        at_worst += f" ({listed(_MORE[key] for key in wait.assumed)}, as no tolerance is written)"
    return Fault(
        (*circuit.stored.at, "stated_wait"),
        f"the stated wait of `{circuit.stored.stated_wait}` is shorter than the computed one, {seconds} s",
        f"with {at_worst}, {wait.start:g} V take {seconds} s to fall to {wait.end:g} V",
        "look the four figures up again; write the known tolerances, or the longer time. An active discharge never counts",
        data={"stated_seconds": float(wait.stated or 0), "computed_seconds": wait.computed},
    )


def _farads(value: float) -> str:
    return f"{value * 1e3:.4g} mF" if value >= 1e-3 else f"{value * 1e6:.4g} µF"


def _ohms(value: float) -> str:
    if value >= 1e6:
        return f"{value / 1e6:.4g} MΩ"
    return f"{value / 1e3:.4g} kΩ" if value >= 1e3 else f"{value:.4g} Ω"
