"""A vehicle profile drafted from what somebody knows of the vehicle at once.

What is not known is left out and marked, never guessed: a fact that is missing counts as the unsafe case, so that the
check refuses every job that would rest on it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from .procedure import Draft
from .yaml_text import Data, Remark, yaml_text


@dataclass(frozen=True, slots=True)
class AskedVehicle:
    """The answers. `energies` and `points` are names of the tables below, `highest` are voltages by circuit."""

    folder: str
    name: str
    energies: tuple[str, ...]
    highest: Mapping[str, str]
    points: tuple[str, ...]


#: What holds energy in a vehicle, as it is put to somebody who is asked.
ENERGIES = {
    "traction": "Traction system, more than 60 V",
    "power-48": "48 V system",
    "supply-12": "12 V supply",
    "supply-24": "24 V supply",
    "coolant": "Coolant that is hot or under pressure",
    "refrigerant": "Refrigerant of an air conditioning",
    "belt": "Belt or shaft that turns",
    "restraints": "Airbags and belt tensioners",
    "rolling": "Vehicle that can roll away",
}
#: Where it is taken off: how it is called, its kind, what it breaks where that is certain, and the source it takes off.
POINTS: Mapping[str, tuple[str, str, str | None, tuple[tuple[str, str], ...]]] = {
    "service-plug": ("Service plug of the traction battery", "plug", None, (("traction", "battery"),)),
    "charge-lead": ("Charge lead", "charge lead", "conductor", (("traction", "charging"),)),
    "isolator-48": ("Isolator switch of the 48 V battery", "switch", "conductor", (("power-48", "battery"),)),
    "aux-negative": ("Negative pole of the 12 V or 24 V battery", "pole", "conductor",
                     (("supply-12", "battery"), ("supply-24", "battery"))),
    "support-lead": ("Lead of a charger or support unit for 12 V or 24 V", "external supply", "conductor",
                     (("supply-12", "external"), ("supply-24", "external"))),
    "wheel-chocks": ("Chocks at the wheels", "blocked wheels", "movement", (("rolling", "slope"),)),
}  # fmt: skip
_ELECTRICAL = {"traction": "Traction battery", "power-48": "48 V battery", "supply-12": "12 V battery",
               "supply-24": "24 V battery"}  # fmt: skip
#: More than, and at most, in volts: class B is above 60 V DC and up to 1500 V (UN R100, ISO 6469-3).
#: From memory: a 48 V system goes up to 60 V (ISO 21780), a 12 V supply to 16 V, a 24 V supply to 32 V (ISO 16750-2).
VOLTS = {"traction": (60, 1500), "power-48": (32, 60), "supply-12": (10, 16), "supply-24": (20, 32)}
_NOMINAL = {"power-48": "48 V", "supply-12": "12 V", "supply-24": "24 V"}
#: Of other energies: the word of the format, what feeds it, what is asked about that, and what else has to be said.
_OTHER = {
    "coolant": ("pressure", "pump", "what stops the pump, such as taken_off_by: [[mode-off]]; until then it is never",
                "safe: at which temperature and pressure it may be opened, such as {temperature: at most 50 °C}"),
    "refrigerant": ("pressure", "filling", None, None),
    "belt": ("rotation", "engine", "what keeps it still, such as taken_off_by: [[mode-off]]; until then it is never",
             None),
    "restraints": ("pyrotechnic", "control-unit", "what takes its supply off; until then it is never",
                   "stored: {stated_wait: …}, the maker's waiting time"),
    "rolling": ("gravity", "slope", "what blocks the wheels; until then it is never", None),
}  # fmt: skip
#: Every source of an electrical circuit that has to be spoken of (the list of the format).
_SOURCES = {
    "battery": "what takes the battery off",
    "charging": "`none`, or what takes the charger off",
    "converter": "`none`, or what takes a converter off that feeds it from another circuit, also backwards",
    "external": "`none`, or what takes a supply from outside off",
}


def vehicle_draft(asked: AskedVehicle) -> Draft:
    """The profile, with everything that is still to be found out marked in its place."""
    points = {name: _point(name, asked) for name in asked.points}
    data: Data = {"format": "1", "vehicle": asked.folder, "name": asked.name}
    data[Remark("TODO: built: the years, such as 2021 to 2025; systems: the groups under which jobs are listed.")] = ""
    data["about"] = "TODO: say in two sentences how the vehicle is built and where its batteries lie."
    data["does_not_cover"] = [
        "Vehicles after a crash, a fire or a flood",
        "TODO: say what else it is not for",
    ]
    data["circuits"] = dict(_circuits(asked))
    if points:
        data["isolation_points"] = points
    data[Remark(
        "TODO: connectors: each with its pins and the circuit of every pin. parts: each with its circuits and what it "
        "exposes when it is open; covers are parts. fasteners: each with its torque."
    )] = ""  # fmt: skip
    if "traction" in asked.energies:
        data["parts"] = {"traction-battery": {
            "name": "Traction battery", "circuits": ["traction", "battery-inside"], "exposes": "none", "sealed": "yes",
            "location": "TODO: say where it lies",
        }}  # fmt: skip
    file = f"procedures/{asked.folder}/vehicle.yml"
    return Draft(file, yaml_text(file, data, "vehicle"), _NOTES)


_NOTES = (
    "what is not in the profile counts as the unsafe case: the check refuses work that would rest on it.",
    "take every figure from the maker's documents, none from another vehicle.",
)


def _circuits(asked: AskedVehicle) -> Iterator[tuple[str, Data]]:
    for name in asked.energies:
        yield name, _electrical(name, asked) if name in _ELECTRICAL else _other(name, asked)
    if "traction" in asked.energies:
        highest = {"max": asked.highest["traction"]} if "traction" in asked.highest else {}
        yield "battery-inside", {
            "name": "Inside the traction battery", "energy": "electrical", "voltage": {"kind": "dc", **highest},
            "sources": {"cells": "never"}, "monitor": "never", "stored": "none", "sealed_in": "traction-battery",
        }  # fmt: skip


def _electrical(name: str, asked: AskedVehicle) -> Data:
    nominal = {"nominal": _NOMINAL[name]} if name in _NOMINAL else {}
    highest = {"max": asked.highest[name]} if name in asked.highest else {}
    data: Data = {"name": ENERGIES[name].split(",")[0], "energy": "electrical"}
    data["voltage"] = {"kind": "dc", **nominal, **highest}
    missing = [] if highest else ["voltage: its max, the highest voltage that occurs, from the maker's sheet"]
    missing.append("fused: yes or no, whether a fuse protects every wire of it")
    if name in ("traction", "power-48"):
        missing += [
            "monitor: `none`, or the insulation monitor and what takes it off",
            "stored: {capacitance: …, bleed: …, stated_wait: …, to_chassis: …}, or `none`; `not known` and `none` are "
            "values too, once the maker was asked",
            "rotation: `turns_with`, `constant` and `at_most`, where a machine on it makes voltage when it is turned",
            "dead_at: the pairs of contacts at which it is proved dead, pole to pole and each pole to chassis, with "
            "the cover that comes off",
        ]  # fmt: skip
    return {**data, **_marked(missing), "sources": _sources(name, asked)}


def _marked(missing: Sequence[str]) -> Data:
    """A remark for each thing; remarks stand before what follows them, and go with it when the file is tidied."""
    return {Remark(f"TODO: {one}"): "" for one in missing}


def _sources(name: str, asked: AskedVehicle) -> Data:
    taken = dict(_taken_off(name, asked.points))
    missing = [f"{source}: {what}" for source, what in _SOURCES.items() if source not in taken]
    known: Data = {source: {"taken_off_by": [points]} for source, points in taken.items()}
    if "battery" in known:
        known["battery"] = {"name": _ELECTRICAL[name], **known["battery"]}
    return {**_marked(missing), **(known or {"battery": "never"})}


def _taken_off(circuit: str, points: Sequence[str]) -> Iterator[tuple[str, list[str]]]:
    for point in points:
        for own, source in POINTS[point][3]:
            if own == circuit:
                yield source, [point]


def _other(name: str, asked: AskedVehicle) -> Data:
    energy, source, asks, more = _OTHER[name]
    taken = dict(_taken_off(name, asked.points)).get(source)
    data: Data = {"name": ENERGIES[name], "energy": energy}
    todo = [one for one in (asks if taken is None else None, more) if one is not None]
    return {**data, **_marked(todo), "sources": {source: {"taken_off_by": [taken]} if taken is not None else "never"}}


def _point(name: str, asked: AskedVehicle) -> Data:
    called, kind, breaks, _ = POINTS[name]
    data: Data = {"name": called, "kind": kind}
    missing = ["secure_with: how it is locked; without that it cannot be relied on"]
    if breaks is not None:
        data["breaks"] = breaks
    else:
        missing.append("breaks: conductor, or middle of the battery where the plug parts the battery in two halves")
    live = kind != "blocked wheels"
    data |= _marked(missing)
    data["leaves_live"] = (
        [{"place": "TODO: say what stays live here when it is open; where nothing does, write leaves_live: none"}]
        if live
        else "none"
    )
    data["location"] = "TODO: say where it is"
    # Common practice: the 12 V supply comes off first, so that no contactor can close while the plug is pulled.
    before = ["aux-negative"] if name in ("service-plug", "isolator-48") and "aux-negative" in asked.points else []
    data["first"] = before or "none"
    only = {"open": ["charge-lead"]} if name == "service-plug" and "charge-lead" in asked.points else {}
    data["only_when"] = {"mode": "off", **only} if live else "none"
    return data
