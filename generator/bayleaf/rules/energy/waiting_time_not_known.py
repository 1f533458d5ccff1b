"""How long a circuit of voltage class B stays charged cannot be known.

## Why it matters

Capacitors keep a deadly voltage when all sources are off. A missing figure counts as the worst: then no waiting settles
the circuit, and every procedure has to discharge and read it. Where the maker publishes no figure, that is written, and the
stated time stands alone.

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
    stored: {capacitance: 1.1 mF ± 20 %, stated_wait: 5 min} # <- `stored` of `heater-link` has no `bleed`
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

```yaml fails vehicle
circuits:
  heater-link: # <- `heater-link` does not say what it stores
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: none
      converter: none
      external: none
    monitor: none
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
    stored: {capacitance: 1.1 mF ± 20 %, bleed: not known, stated_wait: 5 min}
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

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
    stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: none}
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

## Source

UK HSE, electric and hybrid vehicles: the maker's instructions first. 29 CFR 1910.333(b)(2)(ii): stored electrical energy is
released before work.
"""

from collections.abc import Iterator

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from . import _waiting

KIND = "danger"
SEVERITY = "error"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Circuits that can be laid bare and isolated."""
    yield from _waiting.faults(vehicle, "class B")
