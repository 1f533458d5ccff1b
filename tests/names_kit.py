"""What the tests of the rules about names and identifiers share."""

from bayleaf.diagnostics.finding import Finding
from bayleaf.manual import Manual
from bayleaf.rules.rule import all_rules
from kit import PLACES, PROCEDURE, completed

FAMILY = frozenset(rule.name for rule in all_rules() if rule.family in ("references", "identity"))
JOB, PROFILE = PLACES["procedure"], PLACES["vehicle"]
MEASURE = "measure: Supply\nquantity: voltage\n"
FIT_CAP = "fit_temporary: cap\n"


def found(manual: Manual) -> list[Finding]:
    """What these rules find; the other families have tests of their own."""
    return [finding for finding in manual.findings if finding.rule in FAMILY]


def told(manual: Manual, file: str | None = None) -> list[tuple[str, str]]:
    """What the rules about names say about one file, or about all."""
    return [(finding.rule, finding.message) for finding in found(manual) if file in (None, finding.place.file)]


def helps(manual: Manual) -> list[str | None]:
    """What the same findings tell to write."""
    return [finding.help for finding in found(manual)]


def job(text: str) -> dict[str, str | bytes]:
    """The files of a manual whose procedure holds this."""
    return {JOB: completed(text, PROCEDURE)}


def step(text: str) -> dict[str, str | bytes]:
    """The same with one step, the first key of which stands behind the dash."""
    first, *rest = text.split("\n")
    return job("steps:\n  - " + first + "".join(f"\n    {line}" for line in rest) + "\n")
