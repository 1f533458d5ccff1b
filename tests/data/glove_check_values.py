"""Published classes of insulating gloves, and which class a voltage asks for.

Each row carries its source and how certain it is:

secondary  read in pages that restate the standard; they agree with each other
computed   follows from the table of classes
"""

from typing import NamedTuple


class Class(NamedTuple):
    """One class: highest voltages of use in volts."""

    name: str
    ac: int
    dc: int
    source: str
    certainty: str


class Selection(NamedTuple):
    """A voltage, and the lowest class that may be used at it; None where there is none."""

    volts: int
    kind: str
    name: str | None
    source: str
    certainty: str


_TABLES = "ASTM D120 / IEC 60903 as restated by training pages; AC agrees with 29 CFR 1910.137, DC = 1.5 × AC"
_FROM_TABLE = "the table of classes"

CLASSES = (
    Class("00", 500, 750, _TABLES, "secondary"),
    Class("0", 1_000, 1_500, _TABLES, "secondary"),
    Class("1", 7_500, 11_250, _TABLES, "secondary"),
    Class("2", 17_000, 25_500, _TABLES, "secondary"),
    Class("3", 26_500, 39_750, _TABLES, "secondary"),
    Class("4", 36_000, 54_000, _TABLES, "secondary"),
)

SELECTIONS = (
    Selection(400, "dc", "00", _FROM_TABLE, "computed"),
    Selection(750, "dc", "00", _FROM_TABLE, "computed"),
    Selection(751, "dc", "0", _FROM_TABLE, "computed"),
    Selection(800, "dc", "0", _FROM_TABLE, "computed"),
    Selection(1_500, "dc", "0", _FROM_TABLE, "computed"),
    Selection(1_501, "dc", "1", _FROM_TABLE, "computed"),
    Selection(500, "ac", "00", _FROM_TABLE, "computed"),
    Selection(501, "ac", "0", _FROM_TABLE, "computed"),
    Selection(1_000, "ac", "0", _FROM_TABLE, "computed"),
    # One vendor's page prints 7 000 V for class 1 and 26 000 V for class 3; the others 7 500 V and 26 500 V.
    Selection(7_400, "ac", "1", _FROM_TABLE, "computed"),
    Selection(26_400, "ac", "3", _FROM_TABLE, "computed"),
    Selection(54_001, "dc", None, _FROM_TABLE, "computed"),
)
