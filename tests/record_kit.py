"""What the tests of job records share: a small job that asks, performs, measures, computes and tightens, and its record."""

from pathlib import Path

from bayleaf.diagnostics.finding import Finding
from bayleaf.manual import Manual
from bayleaf.records.evaluate import Evaluation, evaluate
from kit import PLACES, check

JOB = """\
format: 1
id: test-van/job
title: Heater stays cold
kind: diagnosis
people: {at_least: 2, who: One person qualified for work on dead high-voltage systems}
revisions:
  - {number: 2, date: 2026-10-01, why: Both coils are read}
  - {number: 1, date: 2026-09-30, why: First version}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - id: look
    ask: What does the plug look like?
    on: X210
    answers:
      - {answer: dry, then: next}
      - {answer: "wet, or green", then: plug-wet}
  - id: isolate
    perform: test-van/isolate
  - id: heater-off
    unplug: [X7, X210]
  - id: one
    measure: Resistance of the first coil
    quantity: resistance
    between: [X210/1 device, X210/3 device]
    using: multimeter
    limits: 100 Ω to 200 Ω
    source: workshop practice
    repeat: at most 1
    exhausted: coil-bad
    outcomes: {below: coil-bad, above: coil-bad, not_decided: clean}
  - id: two
    measure: Resistance of the second coil
    quantity: resistance
    between: [X210/3 device, X210/5 device]
    using: multimeter
    limits: 100 Ω to 200 Ω
    source: workshop practice
    outcomes: {below: coil-bad, above: coil-bad, not_decided: coil-bad}
  - id: both
    compute: The two coils side by side
    formula: parallel
    of: [one, two]
    quantity: resistance
    limits: at least 60 Ω
    source: workshop practice
    outcomes: {below: coil-bad, not_decided: coil-bad}
  - id: heater-on
    plug: [X7, X210]
  - id: bracket
    tighten: heater-bracket
    tools: torque-wrench-small
    then: coil-good
  - id: clean
    do: Brush the pins.
    on: X210 device
    then: one
conclusions:
  plug-wet: {finding: Water in the plug., end: end}
  coil-good: {finding: Both coils are good., end: end}
  coil-bad: {finding: A coil is broken., end: end, stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7, X210]}
"""

#: The bus proved dead, as the isolation asks for it.
PROOF = """\
  - {step: isolate/8, at: 2026-10-05 08:40, reading: 0.4 V, between: [X1/1 cable, X1/2 cable], limits: at most 5 V,
     instrument: voltage-tester, verdict: dead}
  - {step: isolate/8, at: 2026-10-05 08:40, reading: 0.2 V, between: [X1/1 cable, chassis], limits: at most 5 V,
     instrument: voltage-tester, verdict: dead}
  - {step: isolate/8, at: 2026-10-05 08:41, reading: -0.2 V, between: [X1/2 cable, chassis], limits: at most 5 V,
     instrument: voltage-tester, verdict: dead}
"""

ISOLATED = "".join(
    f"  - {{step: isolate/{number}, at: 2026-10-05 08:2{number}, done: yes}}\n" for number in range(1, 8)
)

GOOD = f"""\
format: 1
job: 2026-0001
procedure: test-van/job
revision: 2
started: 2026-10-05 08:15
entries:
  - {{step: look, at: 2026-10-05 08:17, answer: dry}}
{ISOLATED}{PROOF}\
  - {{step: heater-off, at: 2026-10-05 08:45, done: yes}}
  - {{step: one, at: 2026-10-05 08:50, reading: 150 Ω, limits: 100 Ω to 200 Ω, instrument: multimeter, verdict: within}}
  - {{step: two, at: 2026-10-05 08:52, reading: 120 Ω, limits: 100 Ω to 200 Ω, instrument: multimeter, verdict: within}}
  - {{step: both, at: 2026-10-05 08:53, reading: 66.67 Ω, limits: at least 60 Ω, verdict: within}}
  - {{step: heater-on, at: 2026-10-05 08:58, done: yes}}
  - {{step: bracket, at: 2026-10-05 09:00, torque: 20 N·m}}
conclusion: coil-good
"""


def manual_with(tmp_path: Path, record: str, **files: str) -> Manual:
    """The small manual with the job and a record of it, and other files in place of its own."""
    return check(tmp_path, {PLACES["procedure"]: JOB, PLACES["record"]: record, **files})


def evaluated(manual: Manual) -> Evaluation:
    """The evaluation of the record of the small manual."""
    (record,) = manual.records.values()
    return evaluate(record, manual.procedures, manual.vehicles["test-van"], manual.workshop)


def told(manual: Manual) -> list[tuple[str, str]]:
    """Rule and message of all that is found, in the record or elsewhere."""
    return [(one.rule, one.message) for one in manual.findings]


def in_record(manual: Manual) -> list[Finding]:
    return [one for one in manual.findings if one.place.file == PLACES["record"]]


def changed(text: str, old: str, new: str) -> str:
    """The text with one piece changed, which is there once."""
    assert text.count(old) == 1, (text.count(old), old)
    return text.replace(old, new)
