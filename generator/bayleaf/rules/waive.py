"""Waivers: a procedure or a profile answers a practice warning with a reason. The warning stays in every report, as advice."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from ..diagnostics.finding import Finding
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle


def waived(findings: Iterable[Finding], file: Procedure | Vehicle) -> Iterator[Finding]:
    """The findings of a procedure or profile, those that it waives turned into advice with the reason.

    Only warnings about practice can be waived; a waiver of anything else changes nothing, and is reported.
    """
    reasons = {waiver.rule: waiver.why for waiver in file.waivers}
    for finding in findings:
        why = reasons.get(finding.rule)
        if why is None or finding.kind != "practice" or finding.severity != "warning":
            yield finding
        else:
            because = f"waived: {why}" if finding.because is None else f"{finding.because}; waived: {why}"
            yield replace(finding, severity="advice", because=because)
