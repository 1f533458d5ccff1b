"""Findings as workflow commands of GitHub Actions: they appear beside the lines of a pull request.

Source: GitHub Docs, "Workflow commands for GitHub Actions", setting a notice, warning or error message;
the escapes are those of actions/toolkit, packages/core/src/command.ts (from memory).
"""

from collections.abc import Callable, Sequence

from .finding import Finding
from .report_paths import as_written

_COMMANDS = {"error": "error", "warning": "warning", "advice": "notice"}


def report_github(findings: Sequence[Finding], path: Callable[[str], str] = as_written) -> str:
    """One command a finding, one line each."""
    return "".join(_command(finding, path) + "\n" for finding in findings)


def _command(finding: Finding, path: Callable[[str], str]) -> str:
    place = finding.place
    properties = {"file": path(place.file), "line": place.line}
    # Columns "cannot be sent when startLine and endLine are different values" (actions/toolkit).
    if place.line == place.end_line:
        properties["col"] = place.column
        properties["endLine"] = place.end_line
        # There the end defaults to the start, so it names the last column marked, ours the one behind it.
        properties["endColumn"] = max(place.column, place.end_column - 1)
    else:
        properties["endLine"] = place.end_line
    properties["title"] = f"{finding.rule} ({finding.kind})"
    written = ",".join(f"{name}={_property(str(value))}" for name, value in properties.items())
    return f"::{_COMMANDS[finding.severity]} {written}::{_data(_text(finding, path))}"


def _text(finding: Finding, path: Callable[[str], str]) -> str:
    lines = [finding.message]
    if finding.because:
        lines.append(f"Because: {finding.because}")
    lines.extend(f"See {path(see.place.file)}:{see.place.line}: {see.text}" for see in finding.see)
    if finding.help:
        lines.append(f"Help: {finding.help}")
    return "\n".join(lines)


def _data(text: str) -> str:
    """`%` first, or the other escapes would be escaped again."""
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
