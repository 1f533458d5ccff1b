"""Procedures judged by hand from published rules, so that a misreading that walk and oracle share is found.

What is expected was written down from the source beside each, before any judge had seen it; of several needs that one
mistake leaves unmet at a step, and of the same need at the steps behind it, the first and gravest is told.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from bayleaf.loading.load import load
from bayleaf.model.procedure import Procedure
from bayleaf.model.vehicle import Vehicle

from .judge import Found
from .scenario_vehicle import (
    BOND,
    COVER,
    DEAD,
    HEAD,
    INSULATION,
    LOCK,
    OFF,
    PROVE,
    READ_48,
    READ_HOUSING,
    RECONNECT,
    REFIT,
    RELEASE,
    TESTER,
    VEHICLE,
    WAIT,
    WORK,
)  # fmt: skip

FIVE = "EN 50110-1, five safety rules"
NFPA = "NFPA 70E-2018, 120.5"
OSHA = "29 CFR 1910.333"
HSE = "UK HSE, electric and hybrid vehicles"
R100 = "UN R100, high voltage is more than 60 V DC"
PRACTICE = "common practice"
AT_WORK = "NFPA 70E-2024, at each point of work"
HOUSING = "UN R100, protection against indirect contact (from memory); 5 V: common practice"


@dataclass(frozen=True, slots=True)
class Scenario:
    """Steps of a job, what is expected of it as (path, subject, demands), and the rule that says so."""

    name: str
    source: str
    steps: str
    expected: tuple[tuple[str, str, str], ...] = ()
    more: str = ""
    others: Mapping[str, str] = field(default_factory=dict)
    changed: tuple[tuple[str, str], ...] = ()

    def read(self) -> tuple[dict[str, Procedure], Vehicle]:
        """The procedures and the vehicle; a slip in the text of a scenario is an error of the test."""
        text = VEHICLE
        for old, new in self.changed:
            assert old in text, old
            text = text.replace(old, new)
        vehicle = load("procedures/van/vehicle.yml", text.encode(), "vehicle")
        texts = {"job": f"{self.more}steps:\n{self.steps}", **self.others}
        files = {name: load(f"procedures/van/{name}.yml", (HEAD.format(name=name) + body).encode(), "procedure")
                 for name, body in texts.items()}  # fmt: skip
        told = [finding.message for one in (vehicle, *files.values()) for finding in one.findings]
        assert not told, told
        return {one.model.id: one.model for one in files.values()}, vehicle.model

    @property
    def findings(self) -> frozenset[Found]:
        """What is expected; several demands of one place are parted by a bar."""
        return frozenset(
            Found(tuple(path.split(".")), subject, demand)
            for path, subject, demands in self.expected for demand in demands.split("|")
        )  # fmt: skip


def _on(source: str, name: str, steps: str, *expected: tuple[str, str, str], **more) -> Scenario:
    return Scenario(name, source, steps, expected, **more)


BARE = "touch"
ASK_AGAIN = """\
  - ask: Is it clean?
    answers:
      - {answer: yes, then: next}
      - {answer: no, then: again}
"""
AGAIN = WORK.replace("  - do", "  - id: again\n    do", 1)
TWO_WAYS = """\
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - ask: Which pack is fitted?
    answers:
      - {answer: with a plug, then: next}
      - {answer: with fuses, then: fuses}
  - disconnect: service-plug
  - secure: [service-plug, charge-lead]
    then: off
  - id: fuses
    disconnect: [left-fuse, right-fuse]
  - secure: [left-fuse, right-fuse, charge-lead]
  - id: off
    wait: 5 min
    for: [traction]
"""
ONE_FUSE = TWO_WAYS.replace("disconnect: [left-fuse, right-fuse]", "disconnect: left-fuse").replace(
    "secure: [left-fuse, right-fuse, charge-lead]", "secure: [left-fuse, charge-lead]"
)
DISCHARGE = """\
  - discharge: auxiliary
    using: voltage-tester
    with: discharge resistor
    limits: at most 5 V
    source: workshop practice
"""
LINK = "  - remove: auxiliary-cover\n" + PROVE.replace("traction", "auxiliary") + "  - do: Clean.\n    on: X3/1\n"
CALLEE = {"clean": "steps:\n" + WORK}
ISOLATION = {"isolate": "steps:\n" + DEAD}
OFF_48 = "  - set: {mode: off}\n  - disconnect: isolator-48\n"
BATTERY = "battery: {taken_off_by: [[service-plug], [left-fuse, right-fuse]]}"
LUGS_OFF = "  - unplug: X1\n  - pause: break\n"
STUDS = "  - do: Clean.\n    on: X1/1 device\n"
PROVE_BOTH = PROVE.replace(
    TESTER, "    between:\n" + "".join(
        f"      - [X1/1 {side}, X1/2 {side}]\n      - [X1/1 {side}, chassis]\n      - [X1/2 {side}, chassis]\n"
        for side in ("cable", "device")
    ) + TESTER,
)  # fmt: skip
RESTRAINTS = "NHTSA interim guidance (up to 5 min after the battery is off; restated); " + PRACTICE
NO_SQUIBS = "  supply-12:\n"
SQUIBS = ((NO_SQUIBS, """\
  squibs:
    name: Squibs
    energy: pyrotechnic
    sources: {battery: {taken_off_by: [[mode-off], [aux-negative]]}}
    stored: {stated_wait: 5 min}
""" + NO_SQUIBS),)  # fmt: skip
KEY_OUT, CLAMP_OFF = "  - set: {mode: off}\n", "  - disconnect: aux-negative\n"
SQUIB_WAIT, SQUIB = "  - wait: 5 min\n    for: [squibs]\n", "  - do: Look at the yellow plug.\n    on: squibs\n"
BRIDGE = "  - fit_temporary: bridge\n    joins: [X1/1, X1/2]\n"

SCENARIOS: tuple[Scenario, ...] = (
    _on(FIVE, "all in order", DEAD + WORK + REFIT + RELEASE + RECONNECT),
    _on(FIVE + ", 1", "not disconnected", OFF.replace("  - disconnect: service-plug\n", "")
        + "  - secure: charge-lead\n" + WAIT + COVER + PROVE + WORK, ("6", "traction", "cover")),
    _on(NFPA + "(1), all sources", "one source forgotten", OFF.replace("  - disconnect: charge-lead\n", "")
        + "  - secure: service-plug\n" + WAIT + COVER + PROVE + WORK,
        ("3", "service-plug", "disconnect"), ("6", "traction", "cover")),
    _on(NFPA + "(2), interrupt the load first", "plug pulled while the vehicle may be on",
        "  - disconnect: isolator-48\n", ("1", "isolator-48", "disconnect")),
    _on(FIVE + ", 2", "not secured", OFF + WAIT + COVER + PROVE + WORK, ("6", "traction", "cover")),
    _on(FIVE + ", 2", "one of two points not secured", OFF + "  - secure: service-plug\n" + WAIT + COVER + PROVE + WORK,
        ("7", "traction", "cover")),
    _on(FIVE + ", order of 1 and 2", "a closed point secured", "  - set: {mode: off}\n  - secure: charge-lead\n",
        ("2", "charge-lead", "secure")),
    _on(NFPA + "(4), stored energy", "no wait", OFF + LOCK + COVER + PROVE + WORK, ("6", "traction", "cover")),
    _on("HSE, the maker's time is never shortened", "wait shorter than stated, though the formula gives 125 s",
        OFF + LOCK + WAIT.replace("5 min", "4 min") + COVER + PROVE + WORK, ("7", "traction", "cover")),
    _on(PRACTICE, "two waits add up", OFF + LOCK + WAIT.replace("5 min", "3 min") * 2 + COVER + PROVE + WORK),
    _on(NFPA + ", steps in the order given", "waited before the plug is out", "  - wait: 10 min\n    for: [traction]\n"
        + OFF + LOCK + COVER + PROVE + WORK, ("7", "traction", "cover")),
    _on(NFPA + "(4), no bleed resistor", "waiting alone shows nothing", OFF + LOCK + WAIT.replace("5", "30") + LINK,
        ("7", "auxiliary", "cover")),
    _on(NFPA + "(4), release stored energy", "discharged and read", OFF + LOCK + DISCHARGE + LINK),
    _on(NFPA + "(4), release stored energy", "what was discharged is read at contacts of another circuit", OFF + LOCK
        + DISCHARGE.replace("    using", "    between: [X1/1 cable, X1/2 cable]\n    using") + LINK,
        ("7", "auxiliary", "cover")),
    _on(FIVE + ", 3", "not proved", OFF + LOCK + WAIT + COVER + WORK, ("8", "traction", BARE)),
    _on(FIVE + ", 3, all poles", "one pole to chassis not proved", OFF + LOCK + WAIT + COVER + PROVE.replace(
        TESTER, "    between:\n      - [X1/1 cable, X1/2 cable]\n      - [X1/1 cable, chassis]\n" + TESTER) + WORK,
        ("9", "traction", BARE)),
    _on("NFPA 70E-2024, at each point of work", "proved at another circuit", DEAD + REFIT
        + "  - do: Clean.\n    on: X3/1\n", ("10", "auxiliary", "touch")),
    _on(HSE + ", dead before any work", "found not dead, and gone on", DEAD + "    outcomes: {not_dead: next}\n" + WORK,
        ("9", "traction", "not dead")),
    _on(NFPA + "(7), verify", "the tester did not decide, and gone on",
        DEAD + "    outcomes: {not_decided: next}\n" + WORK, ("9", "traction", BARE)),
    _on(FIVE + ", 2", "lock off before the work is over", DEAD + RELEASE + WORK, ("10", "traction", BARE)),
    _on(FIVE + ", 2", "plug put in while it is locked", DEAD + REFIT + "  - reconnect: service-plug\n",
        ("10", "service-plug", "reconnect")),
    _on(OSHA + "(b)(2)(v), before reenergizing (from memory)", "made live with the cover off",
        DEAD + RELEASE + "  - reconnect: service-plug\n", ("10", "traction", "made live")),
    _on(OSHA + "(b)(2)(v) (from memory)", "made live with a bridge left in", DEAD + BRIDGE + REFIT + RELEASE + RECONNECT,
        ("12", "traction", "made live")),
    _on(FIVE + ", 3", "vehicle switched on after the proof", DEAD + "  - set: {mode: ignition}\n" + WORK,
        ("10", "traction", BARE)),
    _on(FIVE + ", 1", "charging after the proof", DEAD + REFIT + "  - set: {mode: charging}\n  - unplug: X7\n",
        ("11", "traction", "touch")),
    _on(OSHA + "(b)(2)(ii), controls are no isolation", "a contactor as the only isolation",
        "  - set: {mode: off}\n  - disconnect: [main-contactor, charge-lead]\n  - secure: [main-contactor, charge-lead]\n"
        + WAIT + COVER + PROVE + WORK,
        ("5", "traction", "cover"),  # the same need at the steps behind it is told once
        changed=((BATTERY, "battery: {taken_off_by: [[main-contactor]]}"),)),
    _on("ISO 6469-3 and " + PRACTICE, "a set with a contactor, which may be stuck", OFF
        + "  - disconnect: main-contactor\n  - secure: [main-contactor, charge-lead, service-plug]\n" + WAIT + COVER,
        ("8", "traction", "cover"), more="faults: [contactor stuck]\n",
        changed=((BATTERY, "battery: {taken_off_by: [[service-plug, main-contactor]]}"),)),
    _on(HSE + ", under the control of the worker", "break after the proof", DEAD + "  - pause: break\n" + WORK,
        ("10", "traction", BARE)),
    _on(FIVE + ", 3", "proved again after the break", DEAD + "  - pause: break\n" + PROVE + WORK),
    _on(AT_WORK, "lugs off, break, proved at the lugs, work at the studs", DEAD + LUGS_OFF + PROVE + STUDS,
        ("12", "traction", BARE)),
    _on(AT_WORK, "lugs off, break, proved at the lugs, put back on the studs", DEAD + LUGS_OFF + PROVE + "  - plug: X1\n",
        ("12", "traction", BARE)),
    _on(AT_WORK + "; " + FIVE + ", 5", "lugs off, break, proved at the lugs, work at the lugs with the studs bare beside",
        DEAD + LUGS_OFF + PROVE + STUDS.replace("device", "cable"), ("12", "traction", "beside")),
    _on(AT_WORK, "48 V lugs off, break, read at the lugs, work at the lugs, then at the studs", OFF_48 + READ_48
        + LUGS_OFF.replace("X1", "X5") + READ_48 + STUDS.replace("X1/1 device", "X5/1 cable")
        + STUDS.replace("X1", "X5"), ("8", "power-48", BARE)),
    _on(AT_WORK, "lugs off, break, lugs and studs proved", DEAD + LUGS_OFF + PROVE_BOTH + STUDS + "  - plug: X1\n"),
    _on(AT_WORK, "lugs off after the proof, and no break", DEAD + "  - unplug: X1\n" + STUDS + "  - plug: X1\n"),
    _on(AT_WORK, "the lugs tested while they are off, and proved again", DEAD + "  - unplug: X1\n" + INSULATION
        + "    discharged: at most 5 V\n" + PROVE + "  - plug: X1\n"),
    _on(PRACTICE, "an insulation test charges the bus", DEAD + INSULATION + PROVE + WORK, ("11", "traction", BARE)),
    _on(PRACTICE, "the test left at most 5 V, and the bus was proved again",
        DEAD + INSULATION + "    discharged: at most 5 V\n" + PROVE + WORK),
    _on(R100, "wheels turned at a speed that makes 240 V", DEAD + "  - turn: driven wheels\n" + WORK,
        ("10", "traction", BARE)),
    _on(R100, "wheels turned at a speed that makes 24 V", DEAD + "  - turn: driven wheels\n    speed: 300 rpm\n" + WORK),
    _on(FIVE + ", 3", "back to the work after a break", DEAD + AGAIN + "  - pause: break\n" + ASK_AGAIN,
        ("9", "traction", BARE)),
    _on(FIVE, "isolated by a performed procedure", "  - perform: van/isolate\n" + WORK, others=ISOLATION),
    _on(FIVE, "work in a performed procedure, nothing isolated", "  - perform: van/clean\n",
        ("1.1", "traction", "touch"), others=CALLEE),
    _on(FIVE, "the same procedure after the isolation and after a break", DEAD + "  - perform: van/clean\n"
        "  - pause: break\n  - perform: van/clean\n", ("11.1", "traction", BARE), others=CALLEE),
    _on(PRACTICE, "more expected than is so", OFF + LOCK + WAIT + "  - perform: van/clean\n",
        ("7", "traction", "expects"), others={"clean": "expects: {traction: proved dead}\n" + CALLEE["clean"]}),
    _on(NFPA + "(2), each source", "one of two ways to take the battery off on each arm",
        TWO_WAYS + COVER + PROVE + WORK),
    _on(NFPA + "(2), each source", "half of one way on one arm", ONE_FUSE + COVER + PROVE + WORK,
        ("10", "traction", "cover")),
    _on(PRACTICE, "two circuits mated after the proof", DEAD + "  - plug: X4\n" + WORK,
        ("9", "auxiliary", "touch"), ("10", "traction", BARE)),
    _on(FIVE + ", 5", "another part beside unproved terminals", OFF + LOCK + WAIT + COVER
        + "  - remove: coolant-hose\n", ("8", "traction", "beside")),
    _on(PRACTICE, "resistance at a live plug", "  - measure: Resistance\n    quantity: resistance\n"
        "    between: [X7/1, X7/2]\n    using: multimeter\n    limits: at most 5 Ω\n    source: workshop practice\n",
        ("1", "traction", "touch")),
    _on(PRACTICE + ", 48 V arcs", "48 V lug undone live", "  - loosen: studs-48\n", ("1", "power-48", "touch")),
    _on(PRACTICE + ", 48 V", "48 V isolated, not read", OFF_48 + "  - loosen: studs-48\n", ("3", "power-48", "touch")),
    _on(PRACTICE + ", 48 V", "48 V isolated and read, no lock needed", OFF_48 + READ_48 + "  - loosen: studs-48\n"),
    _on(HOUSING, "a bond measured, nothing isolated", BOND, ("1", "traction", "housing")),
    _on(HOUSING, "a bond measured on a dead vehicle", DEAD + BOND),
    _on(HOUSING, "a bond measured behind a reading of the housing", READ_HOUSING + BOND + BOND),
    _on(HOUSING, "the housing read up to 60 V", READ_HOUSING.replace("5 V", "60 V") + BOND, ("2", "traction", "housing")),
    _on(HOUSING, "the reading not decided", READ_HOUSING + "    outcomes: {not_decided: next}\n" + BOND,
        ("2", "traction", "housing")),
    _on(HOUSING, "switched on behind the reading", READ_HOUSING + "  - set: {mode: ready}\n" + BOND,
        ("3", "traction", "housing")),
    _on(HOUSING, "switched off behind the reading", READ_HOUSING + "  - set: {mode: off}\n" + BOND),
    _on(HOUSING, "a break behind the reading", READ_HOUSING + "  - pause: break\n" + BOND, ("3", "traction", "housing")),
    _on(RESTRAINTS, "squibs, key out and waited", KEY_OUT + SQUIB_WAIT + SQUIB, ("3", "squibs", "touch"), changed=SQUIBS),
    _on(RESTRAINTS, "squibs, battery off, not waited", KEY_OUT + CLAMP_OFF + SQUIB, ("3", "squibs", "touch"),
        changed=SQUIBS),
    _on(RESTRAINTS, "squibs, battery off and waited", KEY_OUT + CLAMP_OFF + SQUIB_WAIT + SQUIB, changed=SQUIBS),
    _on(RESTRAINTS, "squibs, waited before the battery was off", KEY_OUT + SQUIB_WAIT + CLAMP_OFF + SQUIB,
        ("4", "squibs", "touch"), changed=SQUIBS),
    _on(RESTRAINTS, "squibs that nothing is said to feed", KEY_OUT + CLAMP_OFF + SQUIB_WAIT + SQUIB,
        ("4", "squibs", "touch"), changed=((NO_SQUIBS, SQUIBS[0][1].replace("{taken_off_by: [[mode-off], [aux-negative]]}", "none")),)),
    _on(PRACTICE, "12 V plug with the battery on", "  - unplug: X21\n  - plug: X21\n"),
)  # fmt: skip
