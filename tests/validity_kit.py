"""Pieces of procedures for the tests of what a reading and a proof are worth."""

from pathlib import Path

from bayleaf.diagnostics.finding import Finding
from kit import PLACES, PROCEDURE, VEHICLE, check, completed

JOB = PLACES["procedure"]
CALLED = "procedures/test-van/called.yml"
OFF = "stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]\n"
ISOLATED = f"steps:\n  - perform: test-van/isolate\n{{}}{OFF}"
PROOF = """\
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
"""
#: With 48 V, airbags and a lift.
RICH = (Path(__file__).resolve().parent / "safety" / "sound" / "vehicle.yml").read_text(encoding="utf-8")


def replaced(text: str, old: str, new: str) -> str:
    """The text with one piece changed, which must be there."""
    assert text.count(old) == 1, old
    return text.replace(old, new)


def found(tmp_path, job: str, vehicle: str = VEHICLE, **others: str) -> list[Finding]:
    """What is found in the small manual with this job."""
    files = {JOB: completed(job, PROCEDURE), PLACES["vehicle"]: vehicle}
    names = {"called": CALLED, "isolation": "procedures/test-van/isolate.yml", "workshop": PLACES["workshop"]}
    return list(check(tmp_path, {**files, **{names[key]: text for key, text in others.items()}}).findings)


def told(findings: list[Finding]) -> list[tuple[str, str]]:
    """Rule and message."""
    return [(one.rule, one.message) for one in findings]


def rules(findings: list[Finding]) -> list[str]:
    """The rules alone."""
    return [one.rule for one in findings]


def measure(quantity: str, pins: str, limits: str, *more: str) -> str:
    """A step that measures."""
    lines = [f"measure: A {quantity}", f"quantity: {quantity}", f"between: {pins}", f"limits: {limits}"]
    lines += ["source: workshop practice", *more]
    return "  - " + "\n    ".join(lines) + "\n"


def insulation(pins: str, volts: int = 500) -> str:
    """An insulation test."""
    more = ("using: insulation-tester", f"test_voltage: {volts} V", "discharged: at most 5 V")
    return measure("insulation resistance", pins, "at least 1 MΩ", *more)
