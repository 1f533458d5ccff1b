"""Figure and unit are not parted at the end of a line, whoever wrote them: free text and free pages included."""

import re
from functools import cache

from ..quantities.display import NO_BREAK
from ..quantities.units import QUANTITIES, spellings

#: What is data or is copied as it stands: a no-break space in YAML would be an error.
_AS_IT_STANDS = re.compile(r"(<(script|style|pre|code|textarea)\b.*?</\2>)", re.DOTALL)


def kept_together(html: str) -> str:
    """The HTML of a page with a no-break space between each number and the unit behind it.

    The search reads a no-break space as a space, so that `20 Nm` is still found.
    """
    pieces = _AS_IT_STANDS.split(html)  # text, what stands as it is, the name of its element, text, …
    pieces[0::3] = [_figure().sub(NO_BREAK, piece) for piece in pieces[0::3]]
    del pieces[2::3]
    return "".join(pieces)


@cache
def _figure() -> re.Pattern[str]:
    """A space between a number and one of the units of the table, or between thousands; in no tag.

    What stands in a tag is for the browser: the frame of a drawing is told by four numbers with spaces between them.
    """
    units = {spelling for family in QUANTITIES.values() for one in family for spelling in (one.symbol, *spellings(one))}
    written = "|".join(map(re.escape, sorted(units | {"%"}, key=lambda one: (-len(one), one))))
    return re.compile(rf" (?<=[0-9] )(?=(?:{written}|[0-9]{{3}}(?![0-9]))(?!\w))(?![^<>]*>)")
