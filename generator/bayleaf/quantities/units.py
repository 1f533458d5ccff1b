"""Units: one closed table, looked up by any accepted spelling.

Closed on purpose. An open algebra of units reads `Nm` as a textile number, turns torque into
energy and guesses at prefixes; here a spelling is in the table or it is refused with a hint.
"""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from .unit_table import PREFIXES, ROWS, Row


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of one quantity: `factor` and `offset` lead to the unit named in `unit_table`.

    Two units convert into each other only if their `quantity` is the same word. Torque and
    energy have the same dimension and are two quantities.
    """

    symbol: str
    quantity: str
    factor: Fraction
    offset: Fraction = Fraction(0)
    name: str = ""

    def __hash__(self) -> int:
        return hash(self.symbol)  # symbols are unique; hashing the fractions would cost the caches dear

    def __str__(self) -> str:
        return self.symbol


#: The blanks that may stand inside a value: space, tab, no-break, figure, thin, narrow no-break space.
BLANKS = " \t\u00a0\u2007\u2009\u202f"

_ALIKE = str.maketrans(
    {
        **dict.fromkeys("\t\u00a0\u2007\u2009\u202f", " "),
        "\u03bc": "µ",  # Greek mu beside the micro sign; NFC keeps the two apart
        **dict.fromkeys("⋅∙•*×", "·"),
        **dict.fromkeys("–−\u2010\u2011⁻", "-"),
        **dict.fromkeys("º˚", "°"),
        **dict.fromkeys("″”“", '"'),
        "℃": "°C",
        "℉": "°F",
        "⁄": "/",
        "^": "",
        "¹": "1",
        "²": "2",
        "³": "3",
        "₂": "2",
        "∆": "Δ",
    }
)
_JOINTS = re.compile(r"(?<=[^\W\d_])[ .·\-]+(?=[^\W\d_])")
_SPACES = re.compile(r" *(/) *|(°) +| +")


def spelling_key(spelling: str) -> str:
    """What two spellings must share to be one: `N.m`, `N-m`, `N m` and `N⋅m` all give `N·m`.

    NFC, not NFKC: NFC already joins both ohm signs, NFKC would also turn m² into m2 unasked.
    """
    text = unicodedata.normalize("NFC", spelling).translate(_ALIKE).strip(" ")
    if len(text) > 1:
        text = text.removesuffix(".")  # `3/8 in.`
    text = _JOINTS.sub("·", text)
    return _SPACES.sub(lambda found: found[1] or found[2] or " ", text)


def _family(row: Row) -> Iterator[tuple[Unit, tuple[str, ...]]]:
    """Each unit of a row with its spellings, the canonical one first."""
    for prefix in row.prefixes.split():
        prefix_name, size = PREFIXES[prefix]
        sign = "" if prefix == "_" else prefix
        name = (prefix_name + row.name).replace("kiloohm", "kilohm").replace("megaohm", "megohm")
        unit = Unit(sign + row.symbol, row.quantity, row.factor * size, Fraction(row.offset), name)
        spellings = [sign + spelling for spelling in (row.symbol, *row.spellings)]
        if sign == "µ":
            spellings += ["u" + spelling for spelling in (row.symbol, *row.spellings)]
        yield unit, (*spellings, *(row.words if not sign else ()))


def _tables() -> tuple[dict[str, Unit], dict[str, Unit], dict[str, tuple[str, ...]]]:
    units: dict[str, Unit] = {}
    keys: dict[str, Unit] = {}
    written: dict[str, tuple[str, ...]] = {}
    for row in ROWS:
        for unit, spellings in _family(row):
            kept = tuple(s for s in spellings if spelling_key(s) not in AMBIGUOUS)
            units[unit.symbol] = unit
            written[unit.symbol] = kept
            for spelling in kept:
                if keys.setdefault(spelling_key(spelling), unit) is not unit:
                    raise ValueError(f"`{spelling}` stands for two units in the table")
    return units, keys, written


_MILLI_OR_MEGA = (("mOhm", "milliohm"), ("MOhm", "megohm"))
_NOT_HERE = ""  # a reading that no unit of the table can carry

#: Spellings that are refused because they can mean two things: what to write, and what it means.
AMBIGUOUS: dict[str, tuple[tuple[str, str], ...]] = {
    **dict.fromkeys(("mohm", "mohms", "Mohm", "Mohms", "MOHM", "MOHMS", "mOHM"), _MILLI_OR_MEGA),
    "mohm/m": (("mOhm/m", "milliohm per metre"), (_NOT_HERE, "megohm per metre")),
    "mohm/km": (("mOhm/km", "milliohm per kilometre"), (_NOT_HERE, "megohm per kilometre")),
    "Mohm/V": (("MOhm/V", "megohm per volt"), (_NOT_HERE, "milliohm per volt")),
    "nm": (("N·m", "newton metre"), (_NOT_HERE, "nanometre")),
    "nM": (("N·m", "newton metre"), (_NOT_HERE, "nanometre")),
    "NM": (("N·m", "newton metre"), (_NOT_HERE, "nautical mile")),
    "C": (("°C", "degree Celsius"), ("coulomb", "coulomb")),
    "k": (("kΩ", "kilohm"), ("km", "kilometre")),
    "M": (("MΩ", "megohm"), (_NOT_HERE, "million")),
    "gal": (("US gal", "US gallon"), ("UK gal", "imperial gallon")),
    "gallons": (("US gal", "US gallon"), ("UK gal", "imperial gallon")),
    "gpm": (("US gal/min", "US gallon per minute"), (_NOT_HERE, "imperial gallon per minute")),
    "qt": (("US qt", "US quart"), (_NOT_HERE, "imperial quart")),
    "pt": (("US pt", "US pint"), (_NOT_HERE, "imperial pint")),
    "fl·oz": (("US fl oz", "US fluid ounce"), ("UK fl oz", "imperial fluid ounce")),
    **dict.fromkeys(("ton", "tons"), (("t", "tonne"), (_NOT_HERE, "short ton of 2000 lb"))),
    **dict.fromkeys(
        ("hp", "HP", "bhp"),
        (("PS", "metric horsepower of 735.5 W"), (_NOT_HERE, "mechanical horsepower of 745.7 W")),
    ),
    "mil": (("thou", "thousandth of an inch"), ("mm", "millimetre")),
}

UNITS, SPELLINGS, _WRITTEN = _tables()

#: What can be measured, each with its units in the order of the table.
QUANTITIES: dict[str, tuple[Unit, ...]] = {}
for _unit in UNITS.values():
    QUANTITIES[_unit.quantity] = (*QUANTITIES.get(_unit.quantity, ()), _unit)

#: Trade names of what is measured that say more than the unit can.
TRADE_NAMES: dict[str, str] = {
    "insulation resistance": "resistance",
    "contact resistance": "resistance",
    "bonding resistance": "resistance",
    "test voltage": "voltage",
    "voltage drop": "voltage",
    "ripple": "voltage",
    "leakage current": "current",
    "tightening torque": "torque",
    "gauge pressure": "pressure",
    "distance": "length",
    "clearance": "length",
    "thickness": "length",
    "cross-section": "area",
    "state of charge": "ratio",
    "duty cycle": "ratio",
    "accuracy": "ratio",
}


def unit(symbol: str) -> Unit:
    """The unit with this canonical symbol; for code, not for what an author wrote."""
    return UNITS[symbol]


def base_quantity(name: str) -> str | None:
    """The quantity of the table behind a name: itself, or for a trade name the quantity it is one of."""
    return name if name in QUANTITIES else TRADE_NAMES.get(name)


@lru_cache(maxsize=4096)
def known_unit(spelling: str) -> Unit | None:
    """The unit of a spelling, if the spelling is accepted. Why one is refused: `refused_units`."""
    return SPELLINGS.get(spelling_key(spelling))


def spellings(of: Unit) -> tuple[str, ...]:
    """The listed spellings of a unit, the canonical one first."""
    return _WRITTEN[of.symbol]
