"""What a rule finds, before it is known where that stands in the file."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from ..diagnostics.place import Path


class Spot(NamedTuple):
    """Another place that belongs to a fault, and what is there. `key` points at the key instead of the value."""

    file: str
    at: Path
    text: str
    key: bool = False


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault in the file that is being looked at.

    `at` is the path to the value (to its key where `key` is set), `span` a slice of a text, as offsets.
    Name, class and severity are stamped on by whoever runs the rule.
    """

    at: Path
    message: str
    because: str | None = None
    help: str | None = None
    see: tuple[Spot, ...] = ()
    key: bool = False
    span: tuple[int, int] | None = None
    data: Mapping[str, Any] = field(default_factory=dict)
