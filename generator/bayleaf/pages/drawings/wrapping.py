"""How much room a text takes, before any browser has seen it, and where it is broken into lines."""

#: Widths in em of a very wide screen font, by groups and rounded up: what fits there fits in Segoe UI, Roboto and San
#: Francisco as well. Measured from DejaVu Sans 2.37.
_GROUPS = (
    (0.40, "ijlIJ,.:;|!/\\f-()[]t' ’·\u00a0"),
    (0.55, 'cszrL?*"_`–“”°'),
    (0.62, "aekovxyFTY"),
    (0.84, "wOQ&MDGHNU#+<=>^~−×±→Ω"),
    (1.00, "mW@%"),
)
_WIDTHS = {character: width for width, characters in _GROUPS for character in characters}
_USUAL = 0.70
#: Ideographs, kana and Hangul begin here; they are as wide as they are high.
_FULL_WIDTH_FROM = "\u1100"
_BOLD = 1.15


def width_of(text: str, size: float, bold: bool = False) -> float:
    """An upper bound for the width of a text in a font of this size."""
    ems = sum(_WIDTHS.get(one, 1.05 if one >= _FULL_WIDTH_FROM else _USUAL) for one in text)
    return ems * size * (_BOLD if bold else 1)


def wrapped(text: str, width: float, size: float, bold: bool = False) -> tuple[str, ...]:
    """The lines of a text that fit into a width: broken at blanks, then behind hyphens, then anywhere.

    A no-break space holds a figure and its unit together as long as they fit into one line.
    """
    lines: list[str] = []
    for word in text.split(" "):
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(joined, size, bold) <= width:
            lines[-1] = joined
        else:
            lines += _pieces(word, width, size, bold)
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
