"""Published sizes and worked conversions that the units are held against.

Each row carries its source and how certain it is:

exact     follows from a definition (international yard and pound 1959, SI brochure, CGPM 1901)
printed   the rounded figure in NIST SP 811 (2008), appendix B, held to its last printed digit
computed  reproduced by hand from exact definitions
memory    from memory, not looked up again
"""

from fractions import Fraction as F
from typing import NamedTuple


class Size(NamedTuple):
    """One unit in the SI unit of its quantity."""

    symbol: str
    exact: F
    source: str
    certainty: str


_YARD_1959 = "international yard and pound agreement, 1959"
_SI = "SI brochure, 9th edition"

EXACT_SIZES = (
    Size("in", F("0.0254"), _YARD_1959, "exact"),
    Size("ft", F("0.3048"), _YARD_1959, "exact"),
    Size("mi", F("1609.344"), _YARD_1959, "exact"),
    Size("lb", F("0.45359237"), _YARD_1959, "exact"),
    Size("oz", F("0.028349523125"), _YARD_1959, "exact"),
    Size("lbf", F("4.4482216152605"), "pound times g = 9.80665 m/s² (CGPM 1901)", "exact"),
    Size("kgf", F("9.80665"), "CGPM 1901", "exact"),
    Size("lbf·ft", F("1.3558179483314004"), "definitions", "computed"),
    Size("lbf·in", F("0.1129848290276167"), "definitions", "computed"),
    Size("ozf·in", F("0.00706155181422604375"), "definitions", "computed"),
    Size("kgf·m", F("9.80665"), "CGPM 1901", "exact"),
    Size("kgf·cm", F("0.0980665"), "CGPM 1901", "exact"),
    Size("psi", F("4.4482216152605") / F("0.00064516"), "definitions", "computed"),
    Size("bar", F(100_000), _SI, "exact"),
    Size("atm", F(101_325), "CGPM 1954", "exact"),
    Size("kgf/cm²", F("98066.5"), "CGPM 1901", "exact"),
    Size("mmHg", F("133.322387415"), "conventional millimetre of mercury, ISO 80000-4", "computed"),
    Size("inHg", F("3386.388640341"), "25.4 conventional mmHg", "computed"),
    Size("inH₂O", F("249.08891"), "conventional inch of water", "computed"),
    Size("US gal", F("0.003785411784"), "231 in³", "exact"),
    Size("US qt", F("0.000946352946"), "a quarter of the US gallon", "exact"),
    Size("US pt", F("0.000473176473"), "an eighth of the US gallon", "exact"),
    Size("US fl oz", F("0.0000295735295625"), "a 128th of the US gallon", "exact"),
    Size("UK gal", F("0.00454609"), "UK Units of Measurement Regulations 1995", "exact"),
    Size("UK fl oz", F("0.0000284130625"), "a 160th of the imperial gallon", "exact"),
    Size("PS", F("735.49875"), "75 kgf·m/s", "exact"),
    Size("mph", F("0.44704"), _YARD_1959, "exact"),
    Size("kWh", F(3_600_000), _SI, "exact"),
    Size("Ah", F(3600), _SI, "exact"),
    Size("°", F(1), "degrees count themselves", "exact"),
    Size("rpm", F(1, 60), "revolutions per second", "exact"),
)


class Printed(NamedTuple):
    """A factor as NIST SP 811 (2008), appendix B.8 or B.9, prints it."""

    symbol: str
    factor: str
    certainty: str


NIST_SP_811 = (
    Printed("in", "2.54E-02", "printed"),
    Printed("ft", "3.048E-01", "printed"),
    Printed("mi", "1.609344E+03", "printed"),
    Printed("lb", "4.535924E-01", "printed"),
    Printed("oz", "2.834952E-02", "printed"),
    Printed("lbf", "4.448222E+00", "printed"),
    Printed("lbf·ft", "1.355818E+00", "printed"),
    Printed("lbf·in", "1.129848E-01", "printed"),
    Printed("kgf·m", "9.80665E+00", "printed"),
    Printed("psi", "6.894757E+03", "printed"),
    Printed("mmHg", "1.333224E+02", "printed"),
    Printed("inHg", "3.386389E+03", "printed"),
    Printed("inH₂O", "2.490889E+02", "printed"),
    Printed("US gal", "3.785412E-03", "printed"),
    Printed("UK gal", "4.54609E-03", "printed"),
    Printed("mph", "4.4704E-01", "printed"),
    Printed("PS", "7.354988E+02", "memory"),
)


class Shown(NamedTuple):
    """A text, the text beside it in the other system, and where the pair comes from."""

    written: str
    beside: str
    source: str


#: Limits are rounded inward: IEEE/ASTM SI 10 and the withdrawn ISO 370, "absolute" limits.
ROUNDED_INWARD = (
    Shown("11 mm ± 0.3 mm", "0.422 in to 0.444 in", "worked example of the rule; 0.421…0.445 would widen"),
    Shown("25 N·m ± 10 %", "16.6 lbf·ft to 20.2 lbf·ft", "computed: 16.595…20.283; 20.3 would widen"),
    Shown("200 kPa to 240 kPa", "29.1 psi to 34.8 psi", "computed: 29.0075…34.809; 29.0 would widen"),
    Shown("18 lbf·ft to 22 lbf·ft", "24.5 N·m to 29.8 N·m", "computed: 24.405…29.828"),
    Shown("60 °C ± 5 °C", "131 °F to 149 °F", "exact: a difference of 5 °C is 9 °F, not 41 °F"),
    Shown("at most 60 °C", "at most 140 °F", "exact"),
    Shown("at least 2.2 bar", "at least 32.0 psi", "computed: 31.908 psi, to one decimal"),
)

#: Plain values: NIST SP 811, B.7.2.
ROUNDED_PLAIN = (
    Shown("36 ft", "11.0 m", "NIST SP 811, B.7.2, worked example: 10.9728 m"),
    Shown("25 N·m", "18.4 lbf·ft", "computed: 18.439"),
    Shown("18 lbf·ft", "24.4 N·m", "computed: 24.405"),
    Shown("60 °C", "140 °F", "exact"),
    Shown("−40 °C", "−40 °F", "exact: the scales meet"),
    Shown("1 in", "25.4 mm", "exact"),
    Shown("2.2 bar", "31.9 psi", "computed: 31.908"),
    Shown("100 km/h", "62.1 mph", "computed: 62.137"),
    Shown("5 L", "5.28 US qt", "computed: 5.2834"),
    Shown("12.5 kg", "27.6 lb", "computed: 27.558"),
)
