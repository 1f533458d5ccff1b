"""Findings as JSON, for editors and other programs."""

import json
from collections.abc import Callable, Sequence
from typing import Any

from .finding import SEVERITIES, Finding
from .mend import Mend
from .place import Place
from .report_paths import as_written

#: Raised when a reader of the report would have to be changed.
FORMAT = 1


def report_json(findings: Sequence[Finding], path: Callable[[str], str] = as_written) -> str:
    """The findings as one JSON object, ending in a line break.

    Lines and columns count from 1, columns in code points, ends are exclusive. `path` turns a file of
    the manual into the path to print, relative to the current folder.
    """
    return json.dumps(json_object(findings, path), ensure_ascii=False, indent=2) + "\n"


def json_object(findings: Sequence[Finding], path: Callable[[str], str] = as_written) -> dict[str, Any]:
    """The same as plain data."""
    return {
        "format": FORMAT,
        "diagnostics": [_diagnostic(finding, path) for finding in findings],
        "counts": counts(findings),
    }


def counts(findings: Sequence[Finding]) -> dict[str, int]:
    """How many findings of each severity, those that do not occur included."""
    return {severity: sum(finding.severity == severity for finding in findings) for severity in SEVERITIES}


def _diagnostic(finding: Finding, path: Callable[[str], str]) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "class": finding.kind,
        "severity": finding.severity,
        **_place(finding.place, path),
        "message": finding.message,
        "because": finding.because,
        "see": [{**_place(see.place, path), "text": see.text} for see in finding.see],
        "help": finding.help,
        "data": {**finding.data, **({"mend": _mend(finding.mend, path)} if finding.mend is not None else {})},
    }


def _mend(mend: Mend, path: Callable[[str], str]) -> dict[str, Any]:
    """The mend for an editor; what does not apply is null, or an empty list."""
    return {
        "edits": [{**_place(edit.place, path), "new": edit.new} for edit in mend.edits],
        "encoding": mend.encoding,
        "rename": None if mend.rename is None else path(mend.rename),
    }


def _place(place: Place, path: Callable[[str], str]) -> dict[str, Any]:
    return {
        "file": path(place.file),
        "line": place.line,
        "column": place.column,
        "end_line": place.end_line,
        "end_column": place.end_column,
    }
