"""How much room a text takes, before any browser has seen it, and where it is broken into lines."""

from functools import lru_cache

#: Widths in hundredths of an em of a very wide screen font, by groups and rounded up: what fits there fits in Segoe UI,
#: Roboto and San Francisco as well. Measured from DejaVu Sans 2.37.
_GROUPS = (
    (40, "ijlIJ,.:;|!/\\f-()[]t' ’·\u00a0"),
    (55, 'cszrL?*"_`–“”°'),
    (62, "aekovxyFTY"),
    (84, "wOQ&MDGHNU#+<=>^~−×±→Ω"),
    (100, "mW@%"),
)
_WIDTHS = {character: width for width, characters in _GROUPS for character in characters}
_USUAL = 70
#: Ideographs, kana and Hangul begin here; they are as wide as they are high.
_FULL_WIDTH_FROM = "\u1100"
_FULL_WIDTH = 105
_BOLD = 1.15


def width_of(text: str, size: float, bold: bool = False) -> float:
    """An upper bound for the width of a text in a font of this size."""
    return _in_units(_hundredths(text), size, bold)


def _in_units(hundredths: int, size: float, bold: bool) -> float:
    return hundredths * size * (_BOLD if bold else 1) / 100


@lru_cache(maxsize=10_000)  # the words of one manual come again on many pages
def _hundredths(text: str) -> int:
    return sum(_WIDTHS.get(one, _FULL_WIDTH if one >= _FULL_WIDTH_FROM else _USUAL) for one in text)


def wrapped(text: str, width: float, size: float, bold: bool = False) -> tuple[str, ...]:
    """The lines of a text that fit into a width: broken at blanks, then behind hyphens, then anywhere.

    A no-break space holds a figure and its unit together as long as they fit into one line.
    """
    lines: list[str] = []
    taken = 0
    for word in text.split(" "):
        joined = taken + _hundredths(" ") + _hundredths(word)
        if lines and _in_units(joined, size, bold) <= width:
            lines[-1] = f"{lines[-1]} {word}"
            taken = joined
        else:
            lines += _pieces(word, width, size, bold)
            taken = _hundredths(lines[-1])
    return tuple(line for line in lines if line)


def _pieces(word: str, width: float, size: float, bold: bool) -> list[str]:
    """A word in as many pieces as it needs."""
    pieces = []
    while word and width_of(word, size, bold) > width:
        end = 1
        while width_of(word[: end + 1], size, bold) <= width:
            end += 1
        hyphen = word.rfind("-", 1, end)
        end = hyphen + 1 if hyphen > 0 else end
        pieces.append(word[:end])
        word = word[end:]
    return [*pieces, word]
