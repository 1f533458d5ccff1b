"""A source of a dangerous circuit is only switched off, not isolated.

## Why it matters

Switching off lets contactors open and tells control units to stop. A contactor may be stuck, a control unit may switch
on again, an interlock may be bridged. None of that is seen from outside. What isolates is a break in the conductor itself
that stays open when everything else fails. Squibs are such a circuit too: the key out and some minutes waited is not enough
while the battery, or a support unit, is joined to their control unit.

## Fails

```yaml fails vehicle
circuits:
  heater-link:
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[mode-off]]} # <- the source `battery` of `heater-link` is only switched off: `mode-off` parts no conductor
      charging: none
      converter: none
      external: none
    monitor: none
    stored: none
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

```yaml fails vehicle
circuits:
  squibs:
    name: Squibs of the airbags
    energy: pyrotechnic
    sources:
      battery: {taken_off_by: [[mode-off]]} # <- the source `battery` of `squibs` is only switched off: `mode-off` parts no conductor
    stored: {stated_wait: 5 min}
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
      battery: {taken_off_by: [[mode-off], [service-plug]]}
      charging: none
      converter: none
      external: none
    monitor: none
    stored: none
    dead_at:
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
      - {pair: [X7/2 cable, chassis], access: none}
  # and the others
```

## Source

29 CFR 1910.333(b)(2)(ii), restated in WAC 296-307-37811: control circuit devices and interlocks are no sole means of
isolation. EN 50110-1, 6.2.1: disconnect completely.
"""

from collections.abc import Iterator

from ...model.common import MODE_OFF
from ...model.vehicle import Circuit, Source, Vehicle
from ...safety.other_energies import needs_parting
from ...safety.rig import is_real_break
from ..case import Case
from ..fault import Fault, Spot
from ._circuits import dangerous, listed, squibs, why_dangerous

KIND = "danger"
SEVERITY = "error"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Every source that can be taken off; names that the profile does not have are told elsewhere."""
    for circuit in (*dangerous(vehicle), *squibs(vehicle)):
        for source in circuit.sources:
            if circuit.energy == "pyrotechnic" and not needs_parting(circuit, source.name):
                continue
            names = list(dict.fromkeys(name for way in source.taken_off_by for name in way))
            points = [vehicle.isolation_points.get(name) for name in names]
            known = all(name == MODE_OFF or point for name, point in zip(names, points, strict=True))
            if not names or not known or any(point and point.broken for point in points):
                continue
            if not any(is_real_break(point) for point in points):
                yield _fault(circuit, source, names, vehicle)


def _fault(circuit: Circuit, source: Source, names: list[str], vehicle: Vehicle) -> Fault:
    points = [vehicle.isolation_points[name] for name in names if name != MODE_OFF]
    silent = [point.id for point in points if point.breaks is None and point.kind != "contactor"]
    if silent:
        help_ = f"write at {listed(f'`{name}`' for name in silent)} what it breaks, such as `breaks: conductor`"
    else:
        help_ = "name a plug, switch, pole or lead that parts the conductor itself; it has `breaks: conductor`"
    parts = "parts" if len(names) == 1 else "part"
    return Fault(
        (*source.at, "taken_off_by"),
        f"the source `{source.name}` of `{circuit.id}` is only switched off: "
        f"{listed(f'`{name}`' for name in names)} {parts} no conductor",
        f"{why_dangerous(circuit)}; a contactor may be stuck, and what is only switched off comes on again",
        help_,
        see=tuple(Spot(vehicle.file, point.at, _why_not(point.breaks, point.kind), key=True) for point in points),
    )


def _why_not(breaks: str | None, kind: str) -> str:
    if kind == "contactor":
        return "a contactor, which may be stuck"
    return "does not say what it breaks" if breaks is None else f"breaks: {breaks}"
