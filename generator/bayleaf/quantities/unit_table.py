"""The closed table of units: what each measures, its exact size, and how it may be written.

Every factor is exact. It is built from the definitions: the international yard and pound of
1959 (1 in = 25.4 mm, 1 lb = 0.45359237 kg), standard gravity g = 9.80665 m/s², the US gallon
of 231 in³, the imperial gallon of 4.54609 L. The printed, rounded factors of NIST SP 811
appendix B are the check, not the source.

The sizes are counted in the coherent SI unit, with four exceptions where that unit would bring
in the irrational π or no number at all: an angle is counted in degrees, a rotational speed in
revolutions per second, a voltage per speed in volts per revolution per second, a calendar time
in months.
"""

from dataclasses import dataclass
from fractions import Fraction

_INCH = Fraction("0.0254")
_FOOT = 12 * _INCH
_POUND = Fraction("0.45359237")
_GRAVITY = Fraction("9.80665")
_POUND_FORCE = _POUND * _GRAVITY
_US_GALLON = 231 * _INCH**3
_LITRE = Fraction(1, 1000)
_MINUTE, _HOUR, _DAY = 60, 3600, 86400


@dataclass(frozen=True, slots=True)
class Row:
    """One unit, or one family of units that differ by their prefixes.

    `spellings` take the prefixes, `words` do not. A space in a spelling stands for any of
    space, hyphen, point, `*` and `·` (see `units.spelling_key`). `_` stands for "no prefix".
    """

    quantity: str
    symbol: str
    name: str
    factor: Fraction | int
    prefixes: str = "_"
    spellings: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    offset: Fraction | int = 0


PREFIXES: dict[str, tuple[str, Fraction]] = {
    "p": ("pico", Fraction(1, 10**12)),
    "n": ("nano", Fraction(1, 10**9)),
    "µ": ("micro", Fraction(1, 10**6)),
    "m": ("milli", Fraction(1, 1000)),
    "c": ("centi", Fraction(1, 100)),
    "_": ("", Fraction(1)),
    "h": ("hecto", Fraction(100)),
    "k": ("kilo", Fraction(1000)),
    "M": ("mega", Fraction(10**6)),
    "G": ("giga", Fraction(10**9)),
}

_FT_LB = (
    ("lbf ft", "ft lbf", "lb ft", "ft lb", "lbfft", "ftlb", "ftlbf", "lbft", "lbs ft", "ft lbs", "ftlbs")
    + ("foot pound", "foot pounds", "pound foot", "pound feet")
)  # fmt: skip
_IN_LB = (
    ("lbf in", "in lbf", "lb in", "in lb", "lbfin", "inlb", "inlbf", "lbin", "lbs in", "in lbs", "inlbs")
    + ("inch pound", "inch pounds", "pound inch", "pound inches")
)  # fmt: skip

#: In the order in which units are suggested; within a quantity, the unit of the bay first.
ROWS: tuple[Row, ...] = (
    Row("voltage", "V", "volt", 1, "_ m k µ", words=("volt", "volts")),
    Row("current", "A", "ampere", 1, "_ m µ k n", words=("amp", "amps", "ampere", "amperes")),
    # `mohm` and `Mohm` come of this too; `units.AMBIGUOUS` takes them out again
    Row("resistance", "Ω", "ohm", 1, "_ k M m µ G", ("ohm", "ohms", "Ohm", "Ohms")),
    Row("capacitance", "F", "farad", 1, "µ m n p _", words=("farad",)),
    Row("inductance", "H", "henry", 1, "m µ _"),
    Row("power", "W", "watt", 1, "_ k m M", words=("watt", "watts")),
    Row("power", "PS", "metric horsepower", 75 * _GRAVITY, words=("metric hp",)),
    Row("apparent power", "VA", "volt ampere", 1, "_ k"),
    Row("energy", "J", "joule", 1, "_ k m M", words=("joule", "joules")),
    Row("energy", "Wh", "watt hour", _HOUR, "_ k M", ("W h",)),
    Row("charge", "Ah", "ampere hour", _HOUR, "_ m", ("A h",)),
    Row("charge", "A·s", "coulomb", 1, spellings=("As",), words=("coulomb", "coulombs")),
    Row("charge", "C", "coulomb", 1, "n µ m"),
    Row("torque", "N·m", "newton metre", 1, "_", ("Nm",), ("newton metre", "newton metres")),
    Row("torque", "lbf·ft", "pound-force foot", _POUND_FORCE * _FOOT, words=_FT_LB),
    Row("torque", "lbf·in", "pound-force inch", _POUND_FORCE * _INCH, words=_IN_LB),
    Row("torque", "N·m", "newton metre", 1, "k c m", ("Nm",)),
    Row("torque", "ozf·in", "ounce-force inch", _POUND_FORCE / 16 * _INCH, words=("oz in", "in oz", "in ozf")),
    Row("torque", "kgf·m", "kilogram-force metre", _GRAVITY, words=("kgfm", "kgf m")),
    Row("torque", "kgf·cm", "kilogram-force centimetre", _GRAVITY / 100, words=("kgfcm", "kgf cm")),
    Row("force", "N", "newton", 1, "_ k", words=("newton", "newtons")),
    Row("force", "lbf", "pound-force", _POUND_FORCE),
    Row("force", "kgf", "kilogram-force", _GRAVITY),
    Row("pressure", "bar", "bar", 100_000),
    Row("pressure", "Pa", "pascal", 1, "k M _ h"),
    Row("pressure", "bar", "bar", 100_000, "m"),
    Row("pressure", "psi", "pound-force per square inch", _POUND_FORCE / _INCH**2, words=("PSI", "lbf/in2")),
    Row("pressure", "atm", "standard atmosphere", 101_325),
    Row("pressure", "kgf/cm²", "technical atmosphere", _GRAVITY * 10_000),
    # the conventional columns: mercury of 13 595.1 kg/m³, water of 1000 kg/m³, under g
    Row("pressure", "mmHg", "millimetre of mercury", Fraction("13.5951") * _GRAVITY, words=("mm Hg",)),
    Row("pressure", "inHg", "inch of mercury", Fraction(135951, 10) * _GRAVITY * _INCH, words=("in Hg",)),
    Row("pressure", "inH₂O", "inch of water", 1000 * _GRAVITY * _INCH, words=("in H2O", "inH2O")),
    Row("length", "m", "metre", 1, "m"),
    Row("length", "in", "inch", _INCH, words=("inch", "inches", '"')),
    Row("length", "m", "metre", 1, "_ k c µ", words=("metre", "metres", "meter", "meters")),
    Row("length", "ft", "foot", _FOOT, words=("foot", "feet")),
    Row("length", "mi", "mile", 5280 * _FOOT, words=("mile", "miles")),
    Row("length", "thou", "thousandth of an inch", _INCH / 1000),
    Row("area", "mm²", "square millimetre", Fraction(1, 10**6), words=("sq mm", "sqmm", "qmm")),
    Row("area", "cm²", "square centimetre", Fraction(1, 10**4), words=("sq cm", "sqcm")),
    Row("area", "m²", "square metre", 1, words=("sq m",)),
    Row("area", "in²", "square inch", _INCH**2, words=("sq in",)),
    Row("volume", "L", "litre", _LITRE, "_ m", ("l",), ("litre", "litres", "liter", "liters")),
    Row("volume", "cm³", "cubic centimetre", Fraction(1, 10**6), words=("cc", "ccm")),
    Row("volume", "m³", "cubic metre", 1),
    Row("volume", "in³", "cubic inch", _INCH**3, words=("cu in",)),
    Row("volume", "US gal", "US gallon", _US_GALLON, words=("gal US",)),
    Row("volume", "US qt", "US quart", _US_GALLON / 4, words=("qt US",)),
    Row("volume", "US pt", "US pint", _US_GALLON / 8, words=("pt US",)),
    Row("volume", "US fl oz", "US fluid ounce", _US_GALLON / 128, words=("fl oz US",)),
    Row("volume", "UK gal", "imperial gallon", Fraction("4.54609") * _LITRE, words=("gal UK", "imp gal")),
    Row("volume", "UK fl oz", "imperial fluid ounce", Fraction("4.54609") * _LITRE / 160, words=("fl oz UK",)),
    Row("mass", "g", "gram", Fraction(1, 1000), "k _ m", words=("gram", "grams")),
    Row("mass", "t", "tonne", 1000, words=("tonne", "tonnes")),
    Row("mass", "lb", "pound", _POUND, words=("lbs", "pound", "pounds")),
    Row("mass", "oz", "ounce", _POUND / 16, words=("ounce", "ounces")),
    Row(
        "temperature",
        "°C",
        "degree Celsius",
        1,
        words=("degC", "deg C", "C°", "Celsius"),
        offset=Fraction("273.15"),
    ),
    Row(
        "temperature",
        "°F",
        "degree Fahrenheit",
        Fraction(5, 9),
        words=("degF", "deg F", "Fahrenheit"),
        offset=Fraction("459.67") * 5 / 9,
    ),
    Row("temperature difference", "K", "kelvin", 1, words=("kelvin", "Kelvin", "Δ°C")),
    Row("temperature difference", "Δ°F", "Fahrenheit degree of difference", Fraction(5, 9), words=("Δ degF",)),
    Row("time", "min", "minute", _MINUTE, words=("mins", "minute", "minutes")),
    Row("time", "s", "second", 1, "_ m µ n", words=("sec", "secs", "second", "seconds")),
    Row("time", "h", "hour", _HOUR, words=("hr", "hrs", "hour", "hours")),
    Row("time", "d", "day", _DAY, words=("day", "days")),
    Row("time", "week", "week", 7 * _DAY, words=("weeks",)),
    # a month has no fixed number of days: never convertible into hours or days
    Row("calendar time", "months", "month", 1, words=("month",)),
    Row("calendar time", "years", "year", 12, words=("year",)),
    Row("angle", "°", "degree", 1, words=("deg", "degree", "degrees")),
    Row("angle", "turn", "turn", 360, words=("turns",)),
    Row("frequency", "Hz", "hertz", 1, "_ k M G", words=("1/s",)),
    Row("speed", "km/h", "kilometre per hour", Fraction(1000, _HOUR), words=("kmh", "kph", "km/hr")),
    Row("speed", "mph", "mile per hour", 5280 * _FOOT / _HOUR, words=("mi/h",)),
    Row("speed", "m/s", "metre per second", 1, "_ m"),
    Row(
        "rotational speed",
        "rpm",
        "revolution per minute",
        Fraction(1, 60),
        words=("RPM", "1/min", "r/min", "rev/min", "min⁻¹", "/min"),
    ),
    Row("ratio", "%", "per cent", Fraction(1, 100), words=("per cent", "percent", "pct")),
    Row("ratio", "ppm", "part per million", Fraction(1, 10**6)),
    Row("flow", "L/min", "litre per minute", _LITRE / _MINUTE, words=("l/min", "lpm")),
    Row("flow", "mL/min", "millilitre per minute", _LITRE / 1000 / _MINUTE, words=("ml/min",)),
    Row("flow", "L/h", "litre per hour", _LITRE / _HOUR, words=("l/h",)),
    Row("flow", "m³/h", "cubic metre per hour", Fraction(1, _HOUR)),
    Row("flow", "US gal/min", "US gallon per minute", _US_GALLON / _MINUTE, words=("US gpm",)),
    Row("resistance per length", "Ω/m", "ohm per metre", 1, "m _ µ", ("ohm/m", "Ohm/m")),
    Row("resistance per length", "Ω/km", "ohm per kilometre", Fraction(1, 1000), "_ m", ("ohm/km", "Ohm/km")),
    Row("resistance per voltage", "Ω/V", "ohm per volt", 1, "_ k M", ("ohm/V", "Ohm/V")),
    Row(
        "voltage per speed",
        "V per 1000 rpm",
        "volt per 1000 revolutions per minute",
        Fraction(60, 1000),
        words=("V/1000 rpm", "V / 1000 rpm", "V/krpm", "V per 1000 1/min", "V/1000 1/min"),
    ),
    Row("data rate", "bit/s", "bit per second", 1, "k M _ G", ("bps",)),
    Row("density", "g/cm³", "gram per cubic centimetre", 1000, words=("g/cc", "kg/L", "kg/l", "g/mL", "g/ml")),
    Row("density", "kg/m³", "kilogram per cubic metre", 1),
    Row("conductivity", "S/cm", "siemens per centimetre", 100, "µ m"),
    Row("spring rate", "N/mm", "newton per millimetre", 1000),
)
