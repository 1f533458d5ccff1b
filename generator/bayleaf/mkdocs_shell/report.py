"""Findings as they are shown where MkDocs runs: in its log, and on the pages of `mkdocs serve`."""

from collections.abc import Sequence
from html import escape

from ..diagnostics.finding import SEVERITIES, Finding, in_order

#: A banner names so many errors; the rest is counted.
_SHOWN = 12


def errors(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings that keep a manual from being built, in the order of a report."""
    return in_order(tuple(finding for finding in findings if finding.severity == "error"))


def text(findings: Sequence[Finding]) -> str:
    """A report of several lines: each finding with its place, its reason, and what to write instead."""
    return "\n\n".join(_block(finding) for finding in in_order(tuple(findings)))


def counts(findings: Sequence[Finding]) -> str:
    """How many there are of each severity, as "2 warnings, 1 advice"."""
    said = []
    for severity in SEVERITIES:
        number = sum(finding.severity == severity for finding in findings)
        if number:
            plural = "s" if number > 1 and severity != "advice" else ""
            said.append(f"{number} {severity}{plural}")
    return ", ".join(said)


def _block(finding: Finding) -> str:
    lines = [f"{_where(finding)}: {finding.severity}: {finding.message} [{finding.rule}]"]
    if finding.because:
        lines.append(f"    because: {finding.because}")
    lines.extend(f"    see {see.place.file}:{see.place.line}: {see.text}" for see in finding.see)
    if finding.help:
        lines.append(f"    help: {finding.help}")
    return "\n".join(lines)


def _where(finding: Finding) -> str:
    return f"{finding.place.file}:{finding.place.line}:{finding.place.column}"


def banner(found: Sequence[Finding], trouble: Sequence[str] = ()) -> str:
    """What stands at the top of every page of a manual that has errors; empty where there are none."""
    items = [f"<li>{escape(sentence)}</li>" for sentence in trouble]
    items += [
        f"<li><b>{escape(finding.message)}</b> <code>{escape(_where(finding))}</code>"
        + (f"<br>{escape(finding.help)}" if finding.help else "")
        + "</li>"
        for finding in found
    ]
    if not items:
        return ""
    more = f"<p>And {len(items) - _SHOWN} more.</p>" if len(items) > _SHOWN else ""
    number = "1 error" if len(items) == 1 else f"{len(items)} errors"
    return (
        '<section class="manual-errors" aria-label="Errors in this manual">'
        f"<p><strong>Do not work by this page.</strong> The manual has {number}.</p>"
        f"<ul>{''.join(items[:_SHOWN])}</ul>{more}</section>\n"
    )
