"""Numbers as pages show them: both systems of units, typeset."""

from functools import lru_cache

from ..model.vehicle import Fastener
from ..quantities.display import dual, show, show_limit
from ..quantities.limit import Limit
from ..quantities.quantity import Quantity


@lru_cache(maxsize=8192)
def both(value: Quantity | Limit | None) -> str:
    """A quantity or limit with the other system's figure in brackets; empty where there is none."""
    if value is None:
        return ""
    if isinstance(value, Limit) and value.low is None and value.high is None:
        return both(value.nominal)
    return dual(value)


@lru_cache(maxsize=8192)
def plain(value: Quantity | Limit | None) -> str:
    """A quantity or limit as written; empty where there is none."""
    if value is None:
        return ""
    if isinstance(value, Limit) and value.low is None and value.high is None:
        return plain(value.nominal)
    return show_limit(value) if isinstance(value, Limit) else show(value)


def screws(fastener: Fastener) -> str:
    """What kind of screw it is, and how many of them: "4 of M8 × 1.25, class 8.8"."""
    size = fastener.size.replace(" × ", "\u00a0×\u00a0") if fastener.size else None
    first = f"{fastener.count} of {size or 'them'}" if fastener.count > 1 else size
    return ", ".join(
        filter(None, (first, fastener.property_class and f"class {fastener.property_class}", fastener.material))
    )


def capital(text: str) -> str:
    """The text with a capital at its start."""
    return text[:1].upper() + text[1:]


def minutes(seconds: float) -> str:
    """A time for planning: "25 min", "1 h 40 min"."""
    whole = max(1, round(seconds / 60))
    hours, rest = divmod(whole, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def lead_words(lead_time: str | None) -> str | None:
    """How long a part takes to come, of the words of the profile: `4 weeks`, or `in stock` as it stands."""
    return f"takes {lead_time}" if lead_time and lead_time[0].isdigit() else lead_time
