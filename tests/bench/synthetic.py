"""Makes manuals of any size for the benchmark: the same number and seed give the same bytes.

Each vehicle is the minibus of the demo manual, its profile, isolation and return to service included, with twenty
more units on its traction bus. Each procedure deals with one of these units: every second one finds an insulation
fault, the others replace the unit. Its trouble code, its two connectors and its part number stand in no other.
"""

import random
import re
import shutil
import string
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).resolve().parent
DEMO = HERE.parents[1]
PATTERN = DEMO / "procedures" / "larkway-m12"

#: So many procedures share a vehicle: about what a workshop writes for one.
PER_VEHICLE = 20

#: In every so-manyth procedure stands a step of this kind; the spread is exact over twelve procedures.
SPREAD: Mapping[str, int] = {
    "set": 1, "do": 1, "ask": 1, "read": 1, "perform": 1, "unplug": 1, "plug": 1, "measure": 1, "prove_dead": 1,
    "discharge": 1, "refit": 1, "tighten": 1, "loosen": 2, "remove": 2, "prove_safe": 4, "wait": 4, "drain": 4, "fill": 4,
    "command": 4, "pause": 4, "compute": 6, "for_each": 6,
}  # fmt: skip

_UNITS = (
    ("blower", "heating"), ("air heater", "heating"), ("coolant heater", "heating"), ("water pump", "high-voltage"),
    ("steering pump", "high-voltage"), ("air compressor", "high-voltage"), ("refrigerating unit", "heating"),
    ("brake resistor", "high-voltage"), ("lift pump", "high-voltage"), ("seat heater box", "heating"),
    ("charging relay box", "charging"), ("fuse box", "high-voltage"), ("filter box", "charging"),
    ("voltage converter", "low-voltage"),
)  # fmt: skip
_PLACES = ("front", "rear", "left", "right", "upper", "lower", "inner", "outer", "second", "third", "centre", "roof")

_WORDS: Mapping[str, tuple[str, ...]] = {
    "symptom_1": (
        "Red high-voltage lamp, often first seen after rain or the washing bay",
        "Yellow lamp with a bolt in the display, every few days",
        "The vehicle will not go ready on cold mornings",
        "The charging post breaks off within the first minute",
    ),
    "symptom_2": (
        "The $noun does not run although it is switched on",
        "The $noun stops and starts again by itself",
        "Smell of warm plastic near the $noun",
        "Water or salt below the $noun",
    ),
    "about": (
        "The bus is tested as a whole, then the $noun by itself. What is sound is put back, what leaks is tagged. "
        "The locks stay on until the bus has been tested again.",
        "The $noun hangs on $xh and is controlled through $xc. It is tested against its housing with the plug out; "
        "everything else stays joined, so that one fault does not hide another.",
        "Most faults of the $noun come from water in $xh. Look at the plug before a new part is ordered.",
    ),
    "consumable": ("Contact cleaner, lint-free swabs", "Marking paint for nuts and screws", "Two hose clips"),
    "keep_off": ("Keep your hands off everything orange.", "Touch nothing in the front bay.", "Stand at the door."),
    "value_name": (
        "Insulation resistance as the $noun reports it",
        "Insulation resistance stored with $code",
        "Lowest insulation resistance of this drive",
    ),
    "look": (
        "Look along the orange lead to the $noun without touching it. Note chafing, bites and water marks.",
        "Shine a lamp at $xh and $xc. Note whether both sit square and whether their locks are flush.",
        "Look below the $noun for water, oil and salt. Do not lift any cover.",
    ),
    "looks_good": (
        "Lead whole and in its clips, no trail of water.",
        "Both plugs square and latched, locks flush.",
        "Housing dry, no white or green deposit.",
    ),
    "contacts_good": ("Contacts bright, seals whole.", "No green or white deposit.", "No soot, no bent pin."),
    "latched": ("The lever clicks and the red lock lies flush.", "The latch snaps in.", "The lock cannot be moved."),
    "insulation_good": (
        "A dry $noun shows more than 50 MΩ.",
        "The value climbs for the first 20 s while the filters fill, then stands.",
        "A cracked element shows a few 100 kΩ, falling while you read.",
    ),
    "hold": ("Slacken crosswise.", "Hold the $noun from below.", "Leave the last screw in until the end."),
    "lift": ("Keep it upright.", "Lower it without pulling at the leads.", "Lift it out towards the front."),
    "bare_metal": ("Bare metal shines below the strap.", "The housing sits flat.", "All screws turn in by hand."),
    "runs": ("It hums evenly.", "Warm air comes within 3 min.", "The figure on the scan tool rises."),
    "why": ("Limit of the unit raised", "Reading after 60 s, not 30 s", "Drying of the plug added", "First issue"),
}  # fmt: skip


_MKDOCS = "site_name: Synthetic manual\ndocs_dir: procedures\ntheme: {name: material}\nplugins: [bayleaf]\n"


@dataclass(frozen=True, slots=True)
class FileSet:
    """What was written beside the photos: the files of the manual relative to its folder, and how many bytes they hold."""

    files: tuple[str, ...]
    bytes: int


def write_manual(folder: Path, count: int, seed: int = 1) -> FileSet:
    """Writes a manual with `count` synthetic procedures."""
    texts = {
        "mkdocs.yml": _MKDOCS,
        "procedures/workshop.yml": (DEMO / "procedures" / "workshop.yml").read_text(encoding="utf-8"),
    }
    for vehicle in range(-(-count // PER_VEHICLE)):
        numbers = range(vehicle * PER_VEHICLE, min(count, (vehicle + 1) * PER_VEHICLE))
        texts.update(_vehicle(vehicle, [facts(number, seed) for number in numbers]))
    size = 0
    for name, text in texts.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        data = text.encode("utf-8")
        path.write_bytes(data)
        size += len(data) if name.startswith("procedures/") else 0
    for profile in folder.glob("procedures/*/vehicle.yml"):
        shutil.copytree(PATTERN / "photos", profile.with_name("photos"), dirs_exist_ok=True)
    return FileSet(tuple(name for name in texts if name.startswith("procedures/")), size)


def jobs(written: FileSet) -> tuple[str, ...]:
    """The synthetic procedures among the files of a manual."""
    others = ("workshop.yml", "vehicle.yml", "isolate-traction.yml", "return-to-service.yml")
    return tuple(file for file in written.files if not file.endswith(others))


def facts(number: int, seed: int = 1) -> dict[str, str]:
    """Everything that is filled in for one procedure."""
    chance = random.Random(f"{seed}/{number}")
    what, system = _UNITS[number % len(_UNITS)]
    place = _PLACES[number // len(_UNITS) % len(_PLACES)]
    noun = f"{place} {what} {number + 1}"
    finding = number % 2 == 0
    filled = {
        "number_of": str(number), "vehicle": f"synthetic-{number // PER_VEHICLE + 1:03}", "noun": noun,
        "unit": noun.replace(" ", "-"), "system": system, "code": trouble_code(number),
        "slug": f"{'find-fault-in' if finding else 'replace'}-{noun.replace(' ', '-')}",
        "title": f"{'Find an insulation fault in' if finding else 'Replace'} the {noun} ({trouble_code(number)})",
        "kind": "diagnosis" if finding else "replacement", "xh": f"X{1000 + 2 * number}", "xc": f"X{1001 + 2 * number}",
        "number": f"SY-{10000 + number}-{chance.randrange(10, 99)}",
        "part_when": "It leaks to its housing" if finding else "Always",
        "after": "next" if finding or _has_trial(number) else "replaced",
        "bus_low": "dead-again" if finding else "last-proof",
        "circuits": f"traction, {'heater-coolant, ' if _is_wet(number) else ''}supply-12",
    }  # fmt: skip
    filled["bracket"], filled["bond"] = f"{filled['unit']}-bracket", f"{filled['unit']}-bond"
    filled |= {
        "maker_data": f"Synthetic data {chance.randrange(100, 999)}", "sheet": str(chance.randrange(1, 9)),
        "minutes": str(chance.randrange(2, 8)), "tenth": str(chance.randrange(2, 9)),
        "read_limit": str(chance.randrange(500, 900)), "percent": str(chance.choice((6, 8, 10))),
        "sound_bus": f"{chance.randrange(15, 60) / 10}", "unit_limit": str(chance.randrange(2, 20)),
        "litres": f"{chance.randrange(10, 30) / 10}", "milliohm": str(chance.randrange(2, 9)),
        "power_low": f"{chance.randrange(10, 20) / 10}", "power_high": f"{chance.randrange(22, 40) / 10}",
        "torque": str(chance.randrange(16, 24)), "revision": "2", "mass": f"{chance.randrange(10, 90) / 10}",
        "day": f"2026-{chance.randrange(1, 10):02}-{chance.randrange(1, 28):02}",
        "price": f"{chance.randrange(40, 2000)}.00", "weeks": str(chance.randrange(2, 9)),
    }  # fmt: skip
    for name, choices in _WORDS.items():
        filled[name] = string.Template(chance.choice(choices)).substitute(filled)
    return filled


def things(count: int, seed: int = 1) -> list[tuple[str, str]]:
    """Every trouble code, connector and part number of the synthetic procedures, with the address where it stands."""
    found = []
    for one in (facts(number, seed) for number in range(count)):
        page = f"{one['vehicle']}/vehicle.html"
        found += [
            (one["code"], f"codes.html#{one['code']}"),
            (one["xh"], f"{page}#{one['xh']}"),
            (one["xc"], f"{page}#{one['xc']}"),
            (one["number"], f"{page}#{one['unit']}"),
        ]
    return found


def trouble_code(number: int) -> str:
    """A code of a range that belongs to the makers (SAE J2012), so that it means what the profile says."""
    return f"{'PCBU'[number // 4096]}1{number % 4096:03X}"


def _has_trial(number: int) -> bool:
    return number % 4 == 3


def _is_wet(number: int) -> bool:
    """Whether coolant flows through the unit, so that it is drained before the unit comes out."""
    return number % 4 == 1


def _outline(number: int) -> tuple[str, ...]:
    """The pieces of a procedure, in their order."""
    leave = ("leave",) if number % 4 == 1 else ()
    if number % 2 == 0:
        extra = ("can", "control", "others")[number // 2 % 3]
        others, ends = extra == "others", {"can": "no can", "control": "no supply"}
        return (
            "head", "ask the vehicle", *(() if others else (extra,)), "isolate", "bus", "bus again", "bus outcomes",
            "dead again", *(("others",) if others else ()), "unit off", "unit", "unit on", "to the bus",
            *(("others on",) if others else ()), "close", *leave, "verdict", "bring back", "changed", "no code",
            *(() if others else (ends[extra],)), "conclusions", "conclusions of finding",
            *(() if others else (f"conclusion of {extra}",)),
        )  # fmt: skip
    coolant, trial = _is_wet(number), _has_trial(number)
    return (
        "head", "ask the vehicle", "isolate", "unit off", "shelf",
        *(("coolant out",) if coolant else ()), "replace", *(("coolant in",) if coolant else ()),
        "unit on", "bus", "bus outcomes", "close", *leave, "verdict of replacing", "bring back",
        *(("trial",) if trial else ()), "no code", "conclusions", "conclusions of replacing",
        *(("conclusion of trial",) if trial else ()),
    )  # fmt: skip


def _pieces() -> dict[str, string.Template]:
    parts = re.split(r"^# == (.+) ==\n", (HERE / "job.yml").read_text(encoding="utf-8"), flags=re.MULTILINE)
    return {name: string.Template(text) for name, text in zip(parts[1::2], parts[2::2], strict=True)}


def _vehicle(number: int, units: list[dict[str, str]]) -> dict[str, str]:
    """The files of one vehicle."""
    name, pieces = f"synthetic-{number + 1:03}", _pieces()
    own = {PATTERN.name: name, "Larkway M12": f"Synthetic vehicle {number + 1}", "LM-": f"S{number + 1:03}-"}
    texts = {}
    for file in ("vehicle.yml", "isolate-traction.yml", "return-to-service.yml"):
        text = (PATTERN / file).read_text(encoding="utf-8")
        for there, here in own.items():
            text = text.replace(there, here)
        texts[f"procedures/{name}/{file}"] = text
    profile = f"procedures/{name}/vehicle.yml"
    for section, entry in _ENTRIES.items():
        more = "".join(string.Template(entry).substitute(unit) for unit in units)
        texts[profile] = texts[profile].replace(f"\n{section}:\n", f"\n{section}:\n{more}", 1)
    for unit in units:
        outline = _outline(int(unit["number_of"]))
        texts[f"procedures/{name}/{unit['slug']}.yml"] = "".join(pieces[one].substitute(unit) for one in outline)
    return texts


#: What a unit adds to each section of the profile.
_ENTRIES: Mapping[str, str] = {
    "codes": "  $code: {means: The $noun has found a fault in itself.}\n",
    "connectors": """\
  $xh:
    name: HV inlet of the $noun
    location: On the $noun
    pins:
      1: {signal: HV+, circuit: traction, colour: orange, area: 4 mm²}
      2: {signal: HV−, circuit: traction, colour: orange, area: 4 mm²}
      3: {signal: interlock in, circuit: supply-12, colour: grey, area: 0.5 mm²}
      4: {signal: interlock out, circuit: supply-12, colour: grey/black, area: 0.5 mm²}
  $xc:
    name: Control plug of the $noun
    location: On the $noun, beside $xh
    pins:
      1: {signal: ground, circuit: supply-12, colour: brown, area: 1.5 mm²}
      3: {signal: switched supply, circuit: supply-12, colour: red/yellow, area: 1.5 mm²}
      5: {signal: body CAN high, circuit: none, bus: body, colour: yellow, area: 0.35 mm²}
      6: {signal: body CAN low, circuit: none, bus: body, colour: green, area: 0.35 mm²}
""",
    "parts": """\
  $unit:
    name: $noun
    circuits: [$circuits]
    exposes: none
    connectors: [$xh, $xc]
    location: Front bay
    mass: $mass kg
    highest_test_voltage: 1000 V
    numbers:
      - {number: $number, price: $price EUR, lead_time: $weeks weeks, seen: 2026-10-19}
""",
    "fasteners": """\
  $bracket:
    name: Screws of the bracket of the $noun
    part: $unit
    size: M8 × 1.25
    class: "8.8"
    count: 4
    into: aluminium
    engagement: 18 mm
    torque: $torque N·m
    order: crosswise
  $bond:
    name: Screw of the bonding strap of the $noun
    part: $unit
    size: M6 × 1
    class: "8.8"
    into: steel weld nut
    engagement: 8 mm
    torque: 9 N·m
""",
}
