"""Findings as SARIF, which code hosts and editors read.

Source: OASIS Standard "Static Analysis Results Interchange Format (SARIF) Version 2.1.0" (27 March 2020);
the sections are named beside each object. Section numbers from memory.
"""

import json
from collections.abc import Callable, Mapping, Sequence
from typing import Any
from urllib.parse import quote

from .finding import Finding
from .mend import Mend
from .place import Place
from .report_paths import as_written

_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVELS = {"error": "error", "warning": "warning", "advice": "note"}


def report_sarif(
    findings: Sequence[Finding],
    version: str,
    path: Callable[[str], str] = as_written,
    titles: Mapping[str, str] | None = None,
) -> str:
    """One run (3.14) with every finding as a result (3.27), ending in a line break.

    `titles` holds one sentence for each rule, where there is one.
    """
    rules = sorted({finding.rule for finding in findings})
    run = {
        "tool": {"driver": _driver(rules, version, titles or {})},
        "columnKind": "unicodeCodePoints",
        "results": [_result(finding, rules.index(finding.rule), path) for finding in findings],
    }
    log = {"$schema": _SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(log, ensure_ascii=False, indent=2) + "\n"


def _driver(rules: Sequence[str], version: str, titles: Mapping[str, str]) -> dict[str, Any]:
    """toolComponent (3.19); the rules are reportingDescriptors (3.49), found again by index."""
    return {"name": "bayleaf", "version": version, "rules": [_rule(rule, titles) for rule in rules]}


def _rule(rule: str, titles: Mapping[str, str]) -> dict[str, Any]:
    descriptor: dict[str, Any] = {"id": rule, "help": {"text": f"bayleaf explain {rule}"}}
    if rule in titles:
        descriptor["shortDescription"] = {"text": titles[rule]}
    return descriptor


def _result(finding: Finding, index: int, path: Callable[[str], str]) -> dict[str, Any]:
    """result (3.27). Class, reason and help have no property of their own: they go into the bag (3.8)."""
    result: dict[str, Any] = {
        "ruleId": finding.rule,
        "ruleIndex": index,
        "level": _LEVELS[finding.severity],
        "message": {"text": _text(finding)},
        "locations": [{"physicalLocation": _location(finding.place, path)}],
    }
    if finding.see:
        result["relatedLocations"] = [
            {"id": number, "physicalLocation": _location(see.place, path), "message": {"text": see.text}}
            for number, see in enumerate(finding.see, 1)
        ]
    if finding.mend is not None and finding.mend.edits:
        result["fixes"] = [_fix(finding.mend, path)]
    result["properties"] = {"class": finding.kind, "data": dict(finding.data)}
    return result


def _fix(mend: Mend, path: Callable[[str], str]) -> dict[str, Any]:
    """fix (3.55) with one artifactChange (3.56): its replacements (3.57) are all of one file."""
    places = [_location(edit.place, path) for edit in mend.edits]
    replacements = [
        {"deletedRegion": place["region"], "insertedContent": {"text": edit.new}}
        for place, edit in zip(places, mend.edits, strict=True)
    ]
    return {"artifactChanges": [{"artifactLocation": places[0]["artifactLocation"], "replacements": replacements}]}


def _text(finding: Finding) -> str:
    """One text: a viewer shows no more. Each part is a sentence of its own."""
    parts = [finding.message]
    if finding.because:
        parts.append(f"Because: {finding.because}")
    if finding.help:
        parts.append(f"Help: {finding.help}")
    return "\n".join(parts)


def _location(place: Place, path: Callable[[str], str]) -> dict[str, Any]:
    """physicalLocation (3.29) with a region (3.30): counted from 1, the end column exclusive."""
    return {
        "artifactLocation": {"uri": quote(path(place.file))},
        "region": {
            "startLine": place.line,
            "startColumn": place.column,
            "endLine": place.end_line,
            "endColumn": max(place.end_column, place.column),
        },
    }
