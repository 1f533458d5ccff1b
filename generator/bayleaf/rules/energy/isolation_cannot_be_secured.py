"""A circuit that must be locked has an isolation point that cannot be secured.

## Why it matters

An open isolation point that anybody can close again protects nobody. A circuit of voltage class B, and any other that
says `lock: yes`, is proved dead only after every point that isolates it is secured.

## Fails

```yaml fails vehicle
isolation_points:
  aux-negative: # <- `aux-negative` cannot be secured, but it isolates `cranking-12`
    name: Negative post of the 12 V battery
    kind: pole
    breaks: conductor
    leaves_live: none
    first: none
    only_when: {mode: off}
  charge-lead:
    name: Charge lead
    kind: charge lead
    breaks: conductor
    leaves_live: none
    first: none
    only_when: {mode: off}
    secure_with: Lock on the flap of the inlet
  service-plug:
    name: Traction service plug
    kind: plug
    breaks: middle of the battery
    leaves_live:
      - {place: both contacts of its socket, voltage: 205 V}
    first: [aux-negative]
    only_when: {mode: off, open: [charge-lead]}
    secure_with: Padlock in the receptacle
circuits:
  cranking-12:
    name: 12 V cable of the starter
    energy: electrical
    voltage: {kind: dc, nominal: 12 V, max: 15 V}
    fused: no
    lock: yes
    sources: {battery: {taken_off_by: [[aux-negative]]}, charging: none, converter: none, external: none}
    stored: none
  # and the others
```

```yaml fails vehicle
circuits:
  heater-coolant:
    name: Heater coolant
    energy: pressure
    lock: yes
    sources:
      pump: {taken_off_by: [[mode-off]]} # <- the source `pump` of `heater-coolant` is taken off by `mode-off`, which no lock can hold
    safe: {temperature: at most 50 °C}
  # and the others
```

## Passes

```yaml passes vehicle
isolation_points:
  aux-negative:
    name: Negative post of the 12 V battery
    kind: pole
    breaks: conductor
    leaves_live: none
    first: none
    only_when: {mode: off}
    secure_with: Cap over the post and locking cover over the clamp
  charge-lead:
    name: Charge lead
    kind: charge lead
    breaks: conductor
    leaves_live: none
    first: none
    only_when: {mode: off}
    secure_with: Lock on the flap of the inlet
  service-plug:
    name: Traction service plug
    kind: plug
    breaks: middle of the battery
    leaves_live:
      - {place: both contacts of its socket, voltage: 205 V}
    first: [aux-negative]
    only_when: {mode: off, open: [charge-lead]}
    secure_with: Padlock in the receptacle
circuits:
  cranking-12:
    name: 12 V cable of the starter
    energy: electrical
    voltage: {kind: dc, nominal: 12 V, max: 15 V}
    fused: no
    lock: yes
    sources: {battery: {taken_off_by: [[aux-negative]]}, charging: none, converter: none, external: none}
    stored: none
  # and the others
```

## Source

EN 50110-1, 6.2.2: secure against re-connection. 29 CFR 1910.333(b)(2)(iii): locks and tags. UK HSE, electric and hybrid
vehicles: isolate and secure before any work.
"""

from collections.abc import Iterator

from ...model.common import MODE_OFF
from ...model.vehicle import Circuit, IsolationPoint, Source, Vehicle
from ...safety.rig import is_real_break
from ..case import Case
from ..fault import Fault
from ._circuits import dangerous, electrical, listed

KIND = "danger"
SEVERITY = "error"

Way = tuple[str, ...]


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Each point once, with the circuits that it isolates; a source with a way that can be locked is left alone."""
    open_points: dict[str, list[str]] = {}
    dangerous_ones = {circuit.id for circuit in dangerous(vehicle)}
    others = (one for one in vehicle.circuits.values() if one.energy != "electrical" and not one.broken)
    for circuit in (*electrical(vehicle), *others):
        if not circuit.is_class_b and not circuit.lock:
            continue
        for source in circuit.sources:
            way = _way_to_mend(source, vehicle, circuit.id in dangerous_ones)
            open_ones = [name for name in way if not _can_be_secured(name, vehicle)]
            if MODE_OFF in open_ones:
                yield _mode(circuit, source, way)
            for name in open_ones:
                if name != MODE_OFF and circuit.id not in open_points.setdefault(name, []):
                    open_points[name].append(circuit.id)
    for name, circuits in open_points.items():
        yield _point(vehicle.isolation_points[name], circuits)


def _way_to_mend(source: Source, vehicle: Vehicle, needs_break: bool) -> Way:
    """The way that has to be mended: none where one can be locked, or where something else is wrong with all of them."""
    known = {MODE_OFF, *(name for name, point in vehicle.isolation_points.items() if not point.broken)}
    ways = [way for way in source.taken_off_by if known.issuperset(way)]
    if needs_break:
        ways = [way for way in ways if any(is_real_break(vehicle.isolation_points.get(name)) for name in way)]
    if any(all(_can_be_secured(name, vehicle) for name in way) for way in ways):
        return ()
    return min(ways, key=lambda way: (MODE_OFF in way, len(way)), default=())


def _can_be_secured(name: str, vehicle: Vehicle) -> bool:
    point = vehicle.isolation_points.get(name)
    return point is not None and point.secure_with is not None


def _mode(circuit: Circuit, source: Source, way: Way) -> Fault:
    others = [name for name in way if name != MODE_OFF]
    together = f" together with {listed(f'`{name}`' for name in others)}" if others else ""
    return Fault(
        (*source.at, "taken_off_by"),
        f"the source `{source.name}` of `{circuit.id}` is taken off by `{MODE_OFF}`{together}, which no lock can hold",
        f"{_asks_lock(circuit)}, and the vehicle can be switched on again by anybody who has a key",
        "name isolation points that take it off whatever mode the vehicle is in",
    )


def _point(point: IsolationPoint, circuits: list[str]) -> Fault:
    return Fault(
        point.at,
        f"`{point.id}` cannot be secured, but it isolates {listed(f'`{name}`' for name in circuits)}",
        "a circuit of voltage class B, or one with `lock: yes`, is locked before it is proved dead",
        "add `secure_with: …`, such as a padlock, a locking cap, or the plug kept in the lock box",
        key=True,
    )


def _asks_lock(circuit: Circuit) -> str:
    return "a circuit of voltage class B must be locked" if circuit.is_class_b else f"`{circuit.id}` says `lock: yes`"
