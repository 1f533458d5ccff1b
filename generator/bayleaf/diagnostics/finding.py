"""A finding: one thing that is wrong, as data. How it is printed is decided elsewhere."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from .mend import Mend
from .place import Place

Severity = Literal["error", "warning", "advice"]
Kind = Literal["danger", "validity", "practice", "form"]

#: From the gravest down; the order in which counts are printed.
SEVERITIES: tuple[Severity, ...] = ("error", "warning", "advice")


@dataclass(frozen=True, slots=True)
class See:
    """Another place that belongs to a finding, and what stands there."""

    place: Place
    text: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault at one place.

    `message` is one line that stands alone and names the value found. `because` is the reason,
    `help` what to write instead; both may be missing. `data` holds the typed facts behind the
    words, as plain values that JSON can carry. `mend` is what a program may write where only one thing can be meant.
    `together` is the message, without its number, of several such findings of one file that are read as one.
    """

    rule: str
    place: Place
    message: str
    because: str | None = None
    help: str | None = None
    see: tuple[See, ...] = ()
    kind: Kind = "form"
    severity: Severity = "error"
    data: Mapping[str, Any] = field(default_factory=dict)
    mend: Mend | None = None
    together: str | None = None


def sort_key(finding: Finding) -> tuple[Any, ...]:
    """The order of a report: by file, then by place, then by rule and words; the same on every system."""
    return (finding.place, finding.rule, finding.message)


def in_order(findings: list[Finding] | tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The findings in the order of a report, each one once."""
    seen: dict[tuple[Any, ...], Finding] = {}
    for finding in sorted(findings, key=sort_key):
        seen.setdefault(sort_key(finding), finding)
    return tuple(seen.values())
