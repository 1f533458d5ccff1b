"""What rules ask of a step and of the profile, with what is said where it is not there."""

from collections.abc import Iterable

from ..loading.shape_words import nearest
from ..model.actions import Measure
from ..model.pins import circuits_at, contacts_of, pins_at
from ..model.vehicle import Bus, Cable, Circuit
from ..quantities.quantity import Quantity
from .limit_rule import Asked, Lack


def circuits(asked: Asked) -> tuple[Circuit, ...] | Lack:
    """The electrical circuits that the rule is applied to: those named under `of`, else those of the contacts."""
    known = asked.vehicle.circuits
    names = asked.cited.of
    for name in names:
        if name not in known:
            return unknown(name, "circuit", known)
    if not names and isinstance(asked.action, Measure):
        names = tuple(dict.fromkeys(circuits_at(contacts_of(asked.action), asked.vehicle)))
    found = tuple(known[name] for name in names if name in known and known[name].energy == "electrical")
    return found or Lack(
        "the contacts belong to no electrical circuit of the profile", "name the circuit: `of: traction`", "of"
    )


def highest_voltage(circuit: Circuit) -> Quantity | Lack:
    """The highest working voltage of a circuit."""
    if circuit.voltage is not None and circuit.voltage.max is not None:
        return circuit.voltage.max
    return Lack(
        f"the highest voltage of `{circuit.id}` is not in the profile",
        "write `max: …` under its `voltage`",
        seen=((*circuit.at, "voltage") if circuit.voltage is not None else circuit.at, "its voltage"),
    )


def cable(asked: Asked) -> Cable | Lack:
    """The cable that is named under `of`, with its length and cross-section."""
    if len(asked.cited.of) != 1:
        return Lack("no cable is named", "name one cable of the profile: `of: battery-lead-plus`", "of")
    found = asked.vehicle.cables.get(asked.cited.of[0])
    if found is None:
        return unknown(asked.cited.of[0], "cable", asked.vehicle.cables)
    for key, value, words in (("length", found.length, "length"), ("area", found.area, "cross-section")):
        if value is None:
            mend = f"write `{key}: …` at the cable in the profile"
            return Lack(f"the {words} of `{found.id}` is not in the profile", mend, seen=(found.at, "the cable"))
        if value.si <= 0:
            mend = f"write its {words} at the cable in the profile"
            return Lack(f"the {words} of `{found.id}` is {value}", mend, seen=((*found.at, key), "there"))
    return found


def bus(asked: Asked) -> Bus | Lack:
    """The bus that is named under `of`, else the one of the pins."""
    names = asked.cited.of
    if not names and isinstance(asked.action, Measure):
        names = tuple(dict.fromkeys(pin.bus for _, pin in pins_at(contacts_of(asked.action), asked.vehicle) if pin.bus))
    if len(names) != 1:
        return Lack("it is not said which bus is meant", "name a bus of the profile: `of: body`", "of")
    found = asked.vehicle.buses.get(names[0])
    return found or unknown(names[0], "bus", asked.vehicle.buses)


def unknown(name: str, kind: str, known: Iterable[str]) -> Lack:
    """A name that the profile does not have, with the one that is meant."""
    meant = nearest(name, known)
    help_ = f"did you mean `{meant}`?" if meant else f"name a {kind} of the vehicle profile"
    return Lack(f"the profile has no {kind} `{name}`", help_, "of")


def condition(asked: Asked, quantity: str, example: str) -> Quantity | Lack:
    """The condition under `at`, such as a current of 20 A."""
    said = asked.cited.at
    value = said.nominal if said is not None else None
    if value is None or value.quantity != quantity:
        article = "an" if quantity[0] in "aeiou" else "a"
        return Lack(
            f"`at` has to say one {quantity}"
            if said is not None and said.low
            else f"`at` has to say {article} {quantity}",
            f"write `at: {example}`",
            "at",
        )
    if quantity != "temperature" and value.value <= 0:
        return Lack(f"`at: {value}` is not above 0", f"write `at: {example}`", "at")
    return value
