"""The test points of a circuit of voltage class B are not complete.

## Why it matters

A circuit is dead only when nothing is left between any two of its poles, nor between any pole and the chassis: one
stuck contactor, or one fault of insulation, shows in a single pair. Direct voltage has three pairs, three phases have six.
A circuit without them can never be proved dead, so no step may touch it.

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
    stored: none
    dead_at: # <- `heater-link` is not read between `X7/2 cable` and `chassis`
      - {pair: [X7/1 cable, X7/2 cable], access: none}
      - {pair: [X7/1 cable, chassis], access: none}
  # and the others
```

```yaml fails vehicle
circuits:
  heater-link: # <- `heater-link` has no test point
    name: DC link of the heater
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: none
      converter: none
      external: none
    monitor: none
    stored: none
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
    stored: none
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
    stored: none
    sealed_in: cabin-heater
  # and the others
```

## Source

NFPA 70E-2018, 120.5 (7): phase to phase and phase to earth; EN 50110-1, 6.2.3: dead at all poles. With n poles there are
n·(n − 1)/2 + n pairs.
"""

from collections.abc import Iterator
from itertools import combinations

from ...model.contact import CHASSIS, Contact
from ...model.vehicle import Circuit, Connector, Vehicle
from ..case import Case
from ..fault import Fault, Spot
from ._circuits import class_b, why_dangerous

KIND = "danger"
SEVERITY = "error"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Circuits that can be laid bare."""
    for circuit in class_b(vehicle):
        if circuit.sealed_in is None:
            yield from _none(circuit) if not circuit.dead_at else _incomplete(circuit, vehicle)


def _none(circuit: Circuit) -> Iterator[Fault]:
    yield Fault(
        circuit.at,
        f"`{circuit.id}` has no test point",
        f"{why_dangerous(circuit)}; it can never be proved dead, so nobody may touch it",
        "add `dead_at:` with every pair of poles and every pole to chassis, such as "
        "`- {pair: [X1/1 cable, chassis], access: inverter-cover}`; or `sealed_in:` with the part that encloses it",
        key=True,
    )


def _incomplete(circuit: Circuit, vehicle: Vehicle) -> Iterator[Fault]:
    at = (*circuit.at, "dead_at")
    read = {frozenset(map(str, point.pair)) for point in circuit.dead_at}
    contacts = [contact for point in circuit.dead_at for contact in point.pair if str(contact) != CHASSIS]
    poles = list(dict.fromkeys(map(str, contacts)))
    forgotten = list(_forgotten(circuit, contacts, vehicle))
    because = "dead means nothing between any two poles, nor between any pole and the chassis"
    if len(poles) < 2 or forgotten:
        see: tuple[Spot, ...] = ()
        if forgotten:
            contact, signal, connector = forgotten[0]
            message = f"`{contact}`, {signal} of `{circuit.id}`, is in no test point"
            see = (Spot(vehicle.file, (*connector.at, "pins", contact.pin or ""), "this pin is on the circuit"),)
        else:
            message = f"`{circuit.id}` is read at one pole only, `{(poles or [CHASSIS])[0]}`"
        help_ = "add a pair for each two poles, and for each pole and `chassis`: three pairs of two poles, six of three"
        yield Fault(at, message, because, help_, see=see, key=True)
        return
    missing = [pair for pair in combinations((*poles, CHASSIS), 2) if frozenset(pair) not in read]
    if missing:
        (one, other), more = missing[0], len(missing) - 1
        also = f", nor at {more} more pair{'s' * (more > 1)}" if more else ""
        lines = ", ".join(f"`- pair: [{one}, {other}]`" for one, other in missing)
        message = f"`{circuit.id}` is not read between `{one}` and `{other}`{also}"
        yield Fault(at, message, because, f"add {lines}", key=True)


def _forgotten(circuit: Circuit, contacts: list[Contact], vehicle: Vehicle) -> Iterator[tuple[Contact, str, Connector]]:
    """Pins of the connectors that are read which carry a signal of the circuit that no test point reads."""
    for name in dict.fromkeys(contact.connector for contact in contacts):
        connector = vehicle.connectors.get(name)
        if connector is None or connector.broken:
            continue
        own = [contact for contact in contacts if contact.connector == name and contact.pin in connector.pins]
        signals = {connector.pins[contact.pin].signal for contact in own if contact.pin is not None}
        side = own[0].side if own else None
        for pin in connector.pins.values():
            circuits = {"device": {pin.device_circuit}, "cable": {pin.cable_circuit}}.get(
                side or "", {pin.device_circuit, pin.cable_circuit}
            )
            if own and circuit.id in circuits and pin.signal not in signals:
                yield Contact(name, pin.number, side), pin.signal, connector
