"""What the tests build their manuals from: a small manual that is right, and pieces to change it with."""

import re
from collections.abc import Iterable
from contextlib import suppress
from datetime import date
from pathlib import Path

import pytest
from bayleaf.diagnostics.finding import Finding
from bayleaf.manual import Manual, load_manual

TODAY = date(2026, 11, 1)

MKDOCS = "site_name: Test manual\ndocs_dir: procedures\ntheme: {name: material}\nplugins: [bayleaf]\n"

VEHICLE = """\
format: 1
vehicle: test-van
name: Test van
systems:
  heating: Heating
variants:
  long: {name: Long wheelbase}
circuits:
  traction:
    name: Traction DC bus
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug]]}
      charging: {taken_off_by: [[charge-lead]]}
      converter: none
      external: none
    monitor: {taken_off_by: [[service-plug]]}
    stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 5 min, to_chassis: 0.4 µF}
    dead_at:
      - {pair: [X1/1 cable, X1/2 cable], access: inverter-cover}
      - {pair: [X1/1 cable, chassis], access: inverter-cover}
      - {pair: [X1/2 cable, chassis], access: inverter-cover}
  supply-12:
    name: 12 V supply
    energy: electrical
    voltage: {kind: dc, nominal: 12 V, max: 15 V}
    fused: yes
    sources:
      battery: {taken_off_by: [[aux-negative]]}
      charging: none
      converter: {taken_off_by: [[mode-off]]}
      external: none
    monitor: none
    stored: none
  pack-inside:
    name: Inside the traction battery
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources: {cells: never}
    monitor: never
    stored: none
    sealed_in: traction-battery
  heater-coolant:
    name: Heater coolant
    energy: pressure
    sources: {pump: {taken_off_by: [[mode-off]]}}
    safe: {temperature: at most 50 °C}
isolation_points:
  charge-lead:
    name: Charge lead
    kind: charge lead
    breaks: conductor
    leaves_live: none
    first: none
    only_when: {mode: off}
    secure_with: Lock on the flap of the inlet
  aux-negative:
    name: Negative post of the 12 V battery
    kind: pole
    breaks: conductor
    leaves_live: none
    first: none
    only_when: {mode: off}
  service-plug:
    name: Traction service plug
    kind: plug
    breaks: middle of the battery
    leaves_live:
      - {place: both contacts of its socket, voltage: 205 V}
    first: [aux-negative]
    only_when: {mode: off, open: [charge-lead]}
    secure_with: Padlock in the receptacle
connectors:
  X1:
    name: Inverter DC inlet
    pins:
      1: {signal: HV+, circuit: traction}
      2: {signal: HV−, circuit: traction}
  X7:
    name: Heater HV plug
    pins:
      1: {signal: HV+, circuit: traction}
      2: {signal: HV−, circuit: traction}
  X210:
    name: Heater control plug
    pins:
      1: {signal: ground, circuit: supply-12, colour: brown, area: 1.5 mm2}
      3: {signal: switched supply, circuit: supply-12, area: 1.5 mm2}
      5: {signal: CAN high, circuit: none, bus: body}
parts:
  cabin-heater:
    name: Cabin heater
    circuits: [traction]
    exposes: none
    connectors: [X7, X210]
    highest_test_voltage: 1000 V
  inverter-cover: {name: Inverter cover, circuits: none, exposes: [traction]}
  traction-battery: {name: Traction battery, circuits: [traction, pack-inside], exposes: none, sealed: yes}
cables:
  ground-strap: {name: Ground strap, circuit: supply-12, area: 25 mm2, length: 0.6 m}
buses:
  body: {name: Body CAN, kind: CAN, rate: 500 kbit/s}
fasteners:
  heater-bracket: {part: cabin-heater, size: M8 × 1.25, class: 8.8, count: 4, torque: 20 N·m}
  inverter-terminals: {terminal: [X1/1, X1/2], size: M6, torque: 6 N·m}
"""

PROCEDURE = """\
format: 1
id: test-van/job
title: Test job
kind: diagnosis
people: {at_least: 2, who: One person qualified for work on dead high-voltage systems}
revisions: [{number: 1, date: 2026-09-30, why: First version}]
steps:
  - do: Look at the vehicle.
    on: nothing
"""

ISOLATION = """\
format: 1
id: test-van/isolate
title: Isolate the traction system
kind: isolation
people: {at_least: 2, who: One person qualified for work on dead high-voltage systems}
leaves: {traction: proved dead}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
revisions:
  - {number: 1, date: 2026-09-30, why: First version}
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
    outcomes:
      not_dead: failed
conclusions:
  failed:
    finding: The traction system cannot be made dead.
    end: stop
"""

WORKSHOP = """\
format: 1
instruments:
  multimeter:
    name: Bench multimeter
    kind: multimeter
    functions:
      dc voltage:
        - {range: 60 V, resolution: 10 mV, accuracy: 0.5 % + 2 digits}
      resistance:
        - {range: 600 Ω, resolution: 0.1 Ω, accuracy: 0.9 % + 2 digits}
        - {range: 600 kΩ, resolution: 0.1 kΩ, accuracy: 0.9 % + 2 digits}
      dc current:
        - {range: 600 mA, resolution: 0.1 mA, accuracy: 1.0 % + 3 digits}
        - {range: 10 A, resolution: 10 mA, accuracy: 1.0 % + 3 digits}
      diode:
        - {range: 2 V, resolution: 1 mV, accuracy: 1.0 % + 2 digits}
      capacitance:
        - {range: 1000 µF, resolution: 1 µF, accuracy: 2.0 % + 4 digits}
  voltage-tester:
    name: Two-pole tester
    kind: two-pole voltage tester
    category: CAT III 1000 V
    highest_dc: 1200 V
    lowest_indication: 1 V
    calibrated: 2026-10-05
    interval: 12 months
    functions:
      dc voltage:
        - {range: 100 V, resolution: 0.1 V, accuracy: 2.0 % + 3 digits}
        - {range: 1200 V, resolution: 1 V, accuracy: 2.0 % + 3 digits}
  insulation-tester: {name: Insulation tester, kind: insulation tester}
  torque-wrench-small: {name: Small torque wrench, kind: torque wrench, range: 5 N·m to 25 N·m, accuracy: 4 %}
  torque-screwdriver: {name: Torque screwdriver, kind: torque wrench, range: 1 N·m to 6 N·m, accuracy: 6 %}
  torque-wrench-large: {name: Large torque wrench, kind: torque wrench, range: 20 N·m to 200 N·m, accuracy: 4 %}
proving_units:
  proving-unit: {name: Proving unit, voltage: 690 V, checked: 2026-10-05, interval: 12 months}
tools:
  lock-box: Lock box for keys
  break-out: Break-out adapter for touch-proof plugs
  insulated-sockets: {name: Insulated sockets, insulated_to: 1000 V}
protection:
  gloves-0: {class: class 0, tested: 2026-08-01, interval: 6 months}
  over-gloves: {kind: over-gloves}
  face-shield: {kind: face shield}
"""

RECORD = """\
format: 1
job: "2026-0001"
procedure: test-van/job
revision: 1
started: 2026-10-01 08:15
entries:
  - {step: 1, done: yes}
"""

#: Where each kind of file lies in the manual of the tests.
PLACES = {
    "vehicle": "procedures/test-van/vehicle.yml",
    "procedure": "procedures/test-van/job.yml",
    "workshop": "procedures/workshop.yml",
    "record": "records/2026-0001.yml",
    "page": "procedures/notes.md",
}
BASES = {"vehicle": VEHICLE, "procedure": PROCEDURE, "workshop": WORKSHOP, "record": RECORD, "page": ""}

#: An example on the page of a rule: whether it fails or passes, the kind of file, whether it is whole, the text.
EXAMPLE = re.compile(r"^```(?:yaml|markdown) (fails|passes) (\w+)( whole)?\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_TOP_KEY = re.compile(r"^([A-Za-z_]+):", re.MULTILINE)


def completed(snippet: str, base: str) -> str:
    """A snippet with every top-level block of a base file behind it that it does not have itself.

    So line n of the snippet is line n of the file. Where its last line is `# and the others`, its last block is
    filled up too, with the entries that it does not have itself.
    """
    own = _TOP_KEY.findall(snippet)
    blocks = {block.split(":", 1)[0]: block for block in re.split(r"(?m)^(?=[A-Za-z_]+:)", base) if block.strip()}
    rest = [block for key, block in blocks.items() if key not in own]
    if snippet.rstrip().endswith("# and the others"):
        written = snippet[snippet.rindex(f"{own[-1]}:") :]
        entries = re.split(r"(?m)^(?=  [^ \n])", blocks[own[-1]])[1:]
        rest[:0] = [entry for entry in entries if f"\n{entry.split(':', 1)[0]}:" not in written]
    return snippet.rstrip("\n") + "\n" + "".join(rest)


def write_manual(folder: Path, files: dict[str, str | bytes]) -> Path:
    """A manual that is right, with these files put in its place or beside it. An empty text leaves a file out."""
    texts: dict[str, str | bytes] = {
        "mkdocs.yml": MKDOCS,
        PLACES["vehicle"]: VEHICLE,
        PLACES["procedure"]: PROCEDURE,
        "procedures/test-van/isolate.yml": ISOLATION,
        PLACES["workshop"]: WORKSHOP,
        **files,
    }
    for name, text in texts.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if text:
            path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
    return folder


def link(path: Path, target: str | Path) -> None:
    """A link at `path` that leads to `target`; the test is skipped where the system, or its user, makes none."""
    with suppress(OSError):
        path.symlink_to(target)
    if not path.is_symlink():
        pytest.skip("this system or this user makes no links")


def check(folder: Path, files: dict[str, str | bytes]) -> Manual:
    """The small manual with these files, read and checked on a fixed day."""
    return load_manual(write_manual(folder, files), today=TODAY)


def unwaived(findings: Iterable[Finding]) -> list[Finding]:
    """The findings but for the warnings that their file waives with a reason; the demo has some of these."""
    return [one for one in findings if one.severity != "advice" or "waived: " not in (one.because or "")]
