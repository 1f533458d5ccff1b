"""A limit that is computed by a rule with a published source."""

from dataclasses import dataclass

from ..quantities.limit import Limit
from ..quantities.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Computed:
    """What a rule asks for, and how that was computed.

    `words` is the computation with its figures (`100 Ω/V × 410 V = 41 kΩ`), `source` where the rule is printed,
    `remark` what the reader must know of it. Ends are rounded inward, so that a rounded limit is never wider.
    """

    low: Quantity | None
    high: Quantity | None
    words: str
    source: str
    remark: str | None = None


@dataclass(frozen=True, slots=True)
class Cited:
    """A rule as it is cited beside a limit.

    `of` names what it is applied to, where the step does not tell; `at` is the condition that it is computed for,
    `line` the wire of a bus, `code` the letter of a supply range. `computed` is None until the profile has been looked
    at, and where that lacks a fact.
    """

    rule: str
    of: tuple[str, ...] = ()
    at: Limit | None = None
    line: str | None = None
    code: str | None = None
    computed: Computed | None = None
