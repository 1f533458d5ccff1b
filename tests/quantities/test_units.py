"""The table of units: exact sizes, closed spellings, and agreement with independent tables."""

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
import scipy.constants
from bayleaf.quantities import QUANTITIES, TRADE_NAMES, UNITS, Problem, base_quantity, find_unit
from bayleaf.quantities.units import AMBIGUOUS, SPELLINGS, spelling_key, spellings
from data.units_check_values import EXACT_SIZES, NIST_SP_811

ACCEPTED = {
    "N·m": "Nm|N.m|N·m|N⋅m|N m|N-m|N*m|N\u00a0m|newton metre",
    "lbf·ft": "lbf·ft|lbf ft|lbf-ft|ft-lb|ft·lbf|ft lb|ft-lbs|ftlb|lb·ft|lb-ft|lb ft|lbft|foot-pounds",
    "lbf·in": "lbf in|lbf·in|in-lb|in lb|in·lbf|inch-pounds",
    "kgf·m": "kgf·m|kgf m|kgfm",
    "Ω": "Ω|\u2126|\u03a9|ohm|Ohm|ohms|Ohms",
    "mΩ": "mΩ|m\u2126|mOhm|mOhms",
    "kΩ": "kΩ|kohm|kOhm|k\u2126",
    "MΩ": "MΩ|MOhm|MOhms",
    "GΩ": "GΩ|GOhm|Gohm",
    "µΩ": "µΩ|μΩ|uΩ|µohm|uohm|uOhm",
    "µF": "\u00b5F|\u03bcF|uF",
    "mF": "mF",
    "µs": "µs|us",
    "°C": "°C|℃|degC|deg C|º C|° C|Celsius",
    "°F": "°F|℉|degF|deg F",
    "K": "K|kelvin|Δ°C",
    "mm²": "mm²|mm2|mm^2|sq mm|qmm",
    "psi": "psi|PSI|lbf/in²|lbf/in2",
    "bar": "bar",
    "mbar": "mbar",
    "kPa": "kPa",
    "MPa": "MPa",
    "h": "h|hr|hours",
    "min": "min|min.|minutes",
    "s": "s|sec|seconds",
    "ms": "ms",
    "months": "months|month",
    "years": "years|year",
    "%": "%|percent|per cent",
    "kWh": "kWh|kW h|kW·h",
    "Ah": "Ah|A·h",
    "in": 'in|in.|inch|inches|"|″',
    "ft": "ft|feet",
    "kbit/s": "kbit/s|kbit / s|kbps",
    "Mbit/s": "Mbit/s",
    "rpm": "rpm|RPM|1/min|min⁻¹|min-1|rev/min",
    "Hz": "Hz|1/s",
    "km/h": "km/h|kmh|kph",
    "mph": "mph",
    "L": "L|l|litres|liters",
    "mL": "mL|ml",
    "cm³": "cm³|cm3|cc|ccm",
    "US gal": "US gal|gal US",
    "g": "g",
    "kg": "kg",
    "lb": "lb|lbs",
    "°": "°|deg|degrees",
    "V per 1000 rpm": "V per 1000 rpm|V/1000 rpm|V per 1000 1/min",
    "mΩ/m": "mΩ/m|mOhm/m",
    "Ω/V": "Ω/V|ohm/V",
}


@pytest.mark.parametrize("symbol", ACCEPTED)
def test_keyboard_spellings_are_accepted(symbol: str) -> None:
    """Every spelling of the table finds its one unit."""
    assert [] == [one for one in ACCEPTED[symbol].split("|") if UNITS[symbol] != find_unit(one)]


def test_every_listed_spelling_finds_a_unit() -> None:
    """No listed spelling is taken away by another rule."""
    listed = [one for symbol in UNITS for one in spellings(UNITS[symbol])]

    assert len(listed) > 300
    assert [] == [one for one in listed if isinstance(find_unit(one), Problem)]


REFUSED = [
    ("mohm", "unit-ambiguous", "`mohm` can mean milliohm or megohm",
     "write `mOhm` for a milliohm or `MOhm` for a megohm"),
    ("Mohm", "unit-ambiguous", "`Mohm` can mean milliohm or megohm",
     "write `mOhm` for a milliohm or `MOhm` for a megohm"),
    ("MOHM", "unit-ambiguous", "`MOHM` can mean milliohm or megohm",
     "write `mOhm` for a milliohm or `MOhm` for a megohm"),
    ("mohm/m", "unit-ambiguous", "`mohm/m` can mean milliohm per metre or megohm per metre",
     "write `mOhm/m` for a milliohm per metre"),
    ("nm", "unit-ambiguous", "`nm` can mean newton metre or nanometre", "write `N·m` for a newton metre"),
    ("NM", "unit-ambiguous", "`NM` can mean newton metre or nautical mile", "write `N·m` for a newton metre"),
    ("C", "unit-ambiguous", "`C` can mean degree Celsius or coulomb",
     "write `°C` for a degree Celsius or `coulomb` for a coulomb"),
    ("k", "unit-ambiguous", "`k` can mean kilohm or kilometre",
     "write `kΩ` for a kilohm or `km` for a kilometre"),
    ("gal", "unit-ambiguous", "`gal` can mean US gallon or imperial gallon",
     "write `US gal` for a US gallon or `UK gal` for an imperial gallon"),
    ("hp", "unit-ambiguous",
     "`hp` can mean metric horsepower of 735.5 W or mechanical horsepower of 745.7 W",
     "write `PS` for a metric horsepower of 735.5 W"),
    ("KV", "unit-unknown", "`KV` is not a unit that can be written here", "did you mean `kV` (kilovolt)?"),
    ("mw", "unit-unknown", "`mw` is not a unit that can be written here",
     "did you mean `mW` (milliwatt) or `MW` (megawatt)?"),
    ("mikrofarad", "unit-unknown", "`mikrofarad` is not a unit that can be written here",
     "did you mean `µF` (microfarad)?"),
    ("V/rpm", "unit-unknown", "`V/rpm` is not a unit that can be written here",
     "convert the number to one of these units: `V per 1000 rpm` (volt per 1000 revolutions per minute) or `rpm` "
     "(revolution per minute)"),
    ("volst", "unit-unknown", "`volst` is not a unit that can be written here", "did you mean `V` (volt)?"),
    ("VDC", "unit-unknown", "`VDC` is not a unit that can be written here", "write `V`"),
    ("psig", "unit-unknown", "`psig` is not a unit that can be written here", "write `psi`"),
    ("furlong", "unit-unknown", "`furlong` is not a unit that can be written here",
     "write one of the units listed on the page of the format, such as `V` or `N·m`"),
]  # fmt: skip


@pytest.mark.parametrize(("spelling", "rule", "message", "mend"), REFUSED)
def test_refused_spellings_say_what_to_write(spelling: str, rule: str, message: str, mend: str) -> None:
    """What can mean two units is refused with both; what means none, with the nearest."""
    found = find_unit(spelling)
    assert isinstance(found, Problem)
    assert (rule, message, mend) == (found.rule, found.message, found.help)


def test_prefixes_are_case_sensitive() -> None:
    """m and M, a factor of 10⁹ apart, never stand for each other."""
    assert UNITS["MΩ"].factor / UNITS["mΩ"].factor == 10**9
    assert {"mΩ", "MΩ", "mW", "MW"} <= set(UNITS)
    for spelling in ("KM", "MM", "KHZ", "mhz", "KPA", "MV", "MA"):
        assert isinstance(find_unit(spelling), Problem), spelling


def test_no_ambiguous_spelling_is_accepted() -> None:
    """The two lists are apart."""
    assert not set(AMBIGUOUS) & set(SPELLINGS)
    assert all(key == spelling_key(key) for key in AMBIGUOUS)


def test_trade_names_lead_to_quantities_of_the_table() -> None:
    """A trade name says more than its quantity, and is none itself."""
    assert set(TRADE_NAMES.values()) <= set(QUANTITIES)
    assert not set(TRADE_NAMES) & set(QUANTITIES)
    assert base_quantity("insulation resistance") == "resistance"
    assert base_quantity("colour") is None


@pytest.mark.parametrize("row", EXACT_SIZES, ids=lambda row: row.symbol)
def test_sizes_are_those_of_the_definitions(row) -> None:
    """Equality of fractions, not closeness of floats."""
    assert row.exact == UNITS[row.symbol].factor


@pytest.mark.parametrize("row", NIST_SP_811, ids=lambda row: row.symbol)
def test_sizes_round_to_the_printed_factors(row) -> None:
    """Rounded to the digits NIST SP 811 prints, the factor is the printed one."""
    printed = Decimal(row.factor)
    step = Fraction(10) ** printed.as_tuple().exponent
    assert Fraction(printed) == round(UNITS[row.symbol].factor / step) * step


@pytest.fixture(scope="module")
def units_of_pint() -> pint.UnitRegistry:
    """Its table, which it reads for more than a second."""
    return pint.UnitRegistry(non_int_type=Fraction)


#: What pint calls the units whose symbols it reads otherwise, or not at all (pint 0.25:
#: `Nm` is a textile number, `lb*ft` no torque, `C` coulomb, `F` farad).
PINT_NAMES = {
    "lbf·ft": "lbf*ft", "lbf·in": "lbf*inch", "ozf·in": "ounce_force*inch", "kgf·m": "kgf*m",
    "kgf·cm": "kgf*cm", "kgf/cm²": "kgf/cm**2", "PS": "metric_horsepower", "A·s": "A*s", "in": "inch",
    "inHg": "inch_Hg", "US gal": "gallon", "US qt": "quart", "US pt": "pint",
    "US fl oz": "fluid_ounce", "UK gal": "imperial_gallon", "UK fl oz": "imperial_fluid_ounce", "lb": "pound",
    "Δ°F": "delta_degF", "K": "delta_degC", "L/h": "L/hour", "%": "percent", "ft": "foot",
    "US gal/min": "gallon/minute", "Wh": "watt*hour",
    "kWh": "kW*hour", "MWh": "MW*hour", "m³/h": "m**3/hour", "h": "hour", "d": "day", "mph": "mile/hour",
    "km/h": "km/hour", "N·m": "N*m", "mN·m": "mN*m", "cN·m": "cN*m", "kN·m": "kN*m", "Ah": "A*hour",
    "mAh": "mA*hour", "atm": "atm",
}  # fmt: skip
#: No counterpart: a month is no number of days; pint's inch of water is that of water at 39 °F,
#: not the conventional one; angles carry π there; temperatures are tested by themselves.
PINT_LACKS = {"months", "years", "inH₂O", "°", "turn", "rpm", "V per 1000 rpm", "°C", "°F"}


def test_sizes_agree_with_pint(units_of_pint: pint.UnitRegistry) -> None:
    """An independent table, to nine figures: pint keeps some definitions rounded."""
    for symbol in sorted(set(UNITS) - PINT_LACKS):
        name = PINT_NAMES.get(symbol, symbol.replace("²", "**2").replace("³", "**3"))
        theirs = units_of_pint.Quantity(1, name).to_base_units().magnitude
        assert float(theirs) == pytest.approx(float(UNITS[symbol].factor), rel=1e-9), symbol


@pytest.mark.parametrize("name", ["Nm", "lb*ft"])
def test_why_pint_does_not_read_the_files(name: str, units_of_pint: pint.UnitRegistry) -> None:
    """pint takes `Nm` for a textile number and `lb ft` for a mass times a length; ours are torques."""
    assert not units_of_pint.parse_expression(name).check("[force] * [length]")
    assert find_unit(name).quantity == "torque"


SCIPY = {
    "in": "inch", "ft": "foot", "mi": "mile", "lb": "lb", "oz": "oz", "lbf": "lbf", "kgf": "kgf",
    "psi": "psi", "bar": "bar", "atm": "atm", "mph": "mph", "km/h": "kmh", "US gal": "gallon",
    "UK gal": "gallon_imp",
    "US fl oz": "fluid_ounce", "UK fl oz": "fluid_ounce_imp", "min": "minute", "h": "hour", "d": "day",
    "week": "week", "L": "liter", "g": "gram", "Δ°F": "degree_Fahrenheit",
}  # fmt: skip


@pytest.mark.parametrize(("symbol", "name"), SCIPY.items())
def test_sizes_agree_with_scipy_constants(symbol: str, name: str) -> None:
    """A second independent table, in floats."""
    assert getattr(scipy.constants, name) == pytest.approx(float(UNITS[symbol].factor), rel=1e-15)


def test_millimetre_of_mercury_is_the_conventional_one() -> None:
    """scipy's mmHg is the torr, 1.4e-7 smaller; ours is the conventional millimetre, as pint's."""
    ours = float(UNITS["mmHg"].factor)
    assert scipy.constants.mmHg != ours
    assert scipy.constants.mmHg == pytest.approx(ours, rel=2e-7)
    assert ours == 133.322387415


@pytest.mark.parametrize(
    ("value", "scale", "kelvin"),
    [("0", "°C", "273.15"), ("32", "°F", "273.15"), ("212", "°F", "373.15"), ("-459.67", "°F", "0")],
)
def test_temperature_scales_have_their_zero(value: str, scale: str, kelvin: str) -> None:
    """Definitions of the Celsius and Fahrenheit scales."""
    unit = UNITS[scale]
    assert Fraction(kelvin) == Fraction(value) * unit.factor + unit.offset
