"""What the tests of the flow share: a procedure that comes back in several ways, and what is told about a manual."""

from pathlib import Path

from bayleaf.diagnostics.finding import Finding
from kit import PLACES, PROCEDURE, VEHICLE, check, completed

CALLEE = """\
format: 1
id: test-van/callee
title: Test of the seal
kind: diagnosis
revisions:
  - {number: 1, date: 2026-09-30, why: First version}
steps:
  - ask: Is the seal dry and whole?
    answers:
      - {answer: yes, then: end}
      - {answer: no, then: water}
      - {answer: it is gone, then: gone}
conclusions:
  water: {finding: Water is in the plug.}
  gone: {finding: The seal is missing., end: stop}
"""


def findings(tmp_path: Path, text: str, *others: str, vehicle: str = VEHICLE) -> list[Finding]:
    """What is told about the small manual with this procedure, and others as `a.yml`, `b.yml` beside it."""
    files = {f"procedures/test-van/{name}.yml": other for name, other in zip("abc", others, strict=False)}
    callee = {"procedures/test-van/callee.yml": CALLEE}
    procedure = {PLACES["procedure"]: completed(text, PROCEDURE), PLACES["vehicle"]: vehicle}
    return list(check(tmp_path, {**procedure, **callee, **files}).findings)


def told(found: list[Finding]) -> list[tuple[int, str, str]]:
    """Line, rule and words of each."""
    return [(finding.place.line, finding.rule, finding.message) for finding in found]
