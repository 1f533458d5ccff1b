"""Values as technicians write them: what is read, what is refused, and with which words."""

from decimal import Decimal

import pytest
from bayleaf.quantities import Problem, Quantity, parse_count, parse_quantity

NO_BREAK, NARROW, THIN = "\u00a0", "\u202f", "\u2009"

READ = [
    ("410 V", "410 V"),
    ("0.5 mΩ", "0.5 mΩ"),
    ("25 N·m", "25 N·m"),
    ("25Nm", "25 N·m"),
    ("1.1 mF", "1.1 mF"),
    ("10 min", "10 min"),
    ("60 °C", "60 °C"),
    ("18 lbf·ft", "18 lbf·ft"),
    ("30°", "30°"),
    ("30 °", "30°"),
    ("80 V per 1000 rpm", "80 V per 1000 rpm"),
    ("300 1/min", "300 rpm"),
    ("6 months", "6 months"),
    ("5 mOhm", "5 mΩ"),
    ("5 MOhm", "5 MΩ"),
    # decimal commas that can be nothing else
    ("0,5 V", "0.5 V"),
    ("12,6 V", "12.6 V"),
    ("0,125 in", "0.125 in"),
    ("0.500 V", "0.500 V"),
    ("1,0000 V", "1.0000 V"),
    ("12.50 V", "12.50 V"),
    ("1234,567 V", "1234.567 V"),
    ("12 345,678 V", "12345.678 V"),
    # minus signs, and the plus that says nothing
    ("-40 °C", "-40 °C"),
    ("−40 °C", "-40 °C"),
    ("–40 °C", "-40 °C"),
    ("− 40 °C", "-40 °C"),
    ("+5 V", "5 V"),
    # blanks: in front of the unit, around the value, between thousands
    (f"410{NO_BREAK}V", "410 V"),
    (f"12{NO_BREAK}000 km", "12000 km"),
    (f"12{NARROW}000{NARROW}km", "12000 km"),
    (f"1{THIN}000{THIN}000{THIN}Ω", "1000000 Ω"),
    ("12 000 km", "12000 km"),
    ("  410 V \n", "410 V"),
    # fractions
    ("3/8 in", "0.375 in"),
    ("1 1/2 in", "1.5 in"),
    ('3/8"', "0.375 in"),
    ("3⁄8 in", "0.375 in"),
]


@pytest.mark.parametrize(("written", "canonical"), READ)
def test_values_are_read_exactly(written: str, canonical: str) -> None:
    """The canonical text shows number and unit as they were understood."""
    assert canonical == str(parse_quantity(written))


AMBIGUOUS = "can be read in two ways"
REFUSED = [
    # text, rule, the faulty part, message, help
    ("1.000 V", "number-ambiguous", "1.000", f"`1.000` {AMBIGUOUS}", 
     "write `1 V` if the point stands before decimals, `1000 V` if it parts thousands"),
    ("1,000 V", "number-ambiguous", "1,000", f"`1,000` {AMBIGUOUS}", 
     "write `1 V` if the comma stands before decimals, `1000 V` if it parts thousands"),
    ("−12,500 V", "number-ambiguous", "−12,500", f"`−12,500` {AMBIGUOUS}", 
     "write `-12.5 V` if the comma stands before decimals, `-12500 V` if it parts thousands"),
    ("12.000 km", "number-ambiguous", "12.000", f"`12.000` {AMBIGUOUS}", 
     "write `12 km` if the point stands before decimals, `12000 km` if it parts thousands"),
    ("1.125 in", "number-ambiguous", "1.125", f"`1.125` {AMBIGUOUS}", 
     "write `1.1250 in` or `1125 thou` if the point stands before decimals, `1125 in` if it parts thousands"),
    ("5.012 V", "number-ambiguous", "5.012", f"`5.012` {AMBIGUOUS}",
     "write `5.0120 V` or `5012 mV` if the point stands before decimals, `5012 V` if it parts thousands"),
    ("1.125 bar", "number-ambiguous", "1.125", f"`1.125` {AMBIGUOUS}",
     "write `1.1250 bar` or `1125 mbar` if the point stands before decimals, `1125 bar` if it parts thousands"),
    ("-1.125 kΩ", "number-ambiguous", "-1.125", f"`-1.125` {AMBIGUOUS}",
     "write `-1.1250 kΩ` or `-1125 Ω` if the point stands before decimals, `-1125 kΩ` if it parts thousands"),
    ("1,234,567 Ω", "number-ambiguous", "1,234,567", "`1,234,567` holds thousands separators",
     "write `1234567 Ω`"),
    ("1.234,5 V", "number-ambiguous", "1.234,5", "`1.234,5` holds two kinds of separator",
     "write `1234.5 V`"),
    ("1'000 V", "number-ambiguous", "1'000", "`1'000` holds thousands separators", "write `1000 V`"),
    (".5 V", "number-unreadable", ".5", "`.5` begins with a separator", "write `0.5 V`"),
    ("5. V", "number-unreadable", "5.", "`5.` ends in a separator", "write `5 V`"),
    ("1..5 V", "number-unreadable", "1..5", "`1..5` is not a number",
     "write digits with one decimal point, such as `1234.5`"),
    ("1e3 V", "number-unreadable", "1e3", "`1e3` is written with a power of ten",
     "write `1000 V`, or choose a prefix"),
    ("5 5 V", "number-unreadable", "5 5", "`5 5` is not one number",
     "write one number, such as `1234.5` or `1 1/2`"),
    ("1-1/2 in", "number-unreadable", "1-1/2", "`1-1/2` is not one number", "write `1 1/2 in`"),
    ("1½ in", "number-unreadable", "1½", "`1½` is not one number", "write `1 1/2 in`"),
    ("½ in", "number-unreadable", "½ in", "`½ in` does not begin with a number", "write `1/2 in`"),
    ("1/3 in", "number-unreadable", "1/3", "`1/3` has no exact decimal value",
     "write the number as a decimal, rounded as it should be"),
    ("1/0 in", "number-unreadable", "1/0", "`1/0` divides by zero", "write the number as a decimal"),
    ("five V", "number-unreadable", "five V", "`five V` does not begin with a number",
     "write a number in digits, then its unit"),
    ("~5 V", "number-unreadable", "~5 V", "`~5 V` does not begin with a number",
     "write `5 V`"),
    ("", "number-unreadable", "", "there is no value here", "write a number in digits, then its unit"),
    ("5\u200b V", "number-unreadable", "\u200b", "an invisible character (U+200B) stands in `5 V`",
     "delete the value and type it anew"),
    ("11 V to 14 V", "number-unreadable", "11 V to 14 V",
     "`11 V to 14 V` is a limit, but one value is expected",
     "write one number with its unit"),
    ("45", "unit-missing", "45", "`45` has no unit", "write the unit after it, such as `45 V` or `45 mV`"),
    ("5 mohm", "unit-ambiguous", "mohm", "`5 mohm` can mean milliohm or megohm",
     "write `5 mOhm` for a milliohm or `5 MOhm` for a megohm"),
    ("45 nm", "unit-ambiguous", "nm", "`45 nm` can mean newton metre or nanometre",
     "write `45 N·m` for a newton metre"),
    ("60 C", "unit-ambiguous", "C", "`60 C` can mean degree Celsius or coulomb",
     "write `60 °C` for a degree Celsius or `60 coulomb` for a coulomb"),
    ("47 k", "unit-ambiguous", "k", "`47 k` can mean kilohm or kilometre",
     "write `47 kΩ` for a kilohm or `47 km` for a kilometre"),
    ("60 V DC", "unit-unknown", "V DC", "`V DC` is not a unit that can be written here", "write `60 V`"),
    ("5 Kohm", "unit-unknown", "Kohm", "`Kohm` is not a unit that can be written here",
     "did you mean `5 kΩ` (kilohm)?"),
]  # fmt: skip


@pytest.mark.parametrize(("written", "rule", "part", "message", "mend"), REFUSED)
def test_values_are_refused_with_what_to_write(written, rule, part, message, mend) -> None:
    """Rule, words and the smallest faulty part, counted in the text as given."""
    found = parse_quantity(written)
    assert isinstance(found, Problem)
    assert (rule, message, mend) == (found.rule, found.message, found.help)
    assert part == written[found.start : found.end]


OF_ANOTHER_QUANTITY = [
    ("45 Nm", "time", "`45 Nm` is a torque, but a time is expected", "write a time, such as `12 min`"),
    ("45 Nm", "energy", "`45 Nm` is a torque, but an energy is expected", "write `45 J`"),
    ("5 J", "torque", "`5 J` is an energy, but a torque is expected", "write `5 N·m`"),
    ("77 F", "temperature", "`77 F` is a capacitance, but a temperature is expected", "write `77 °F`"),
    ("47 K", "resistance", "`47 K` is a temperature difference, but a resistance is expected",
     "write `47 kΩ`"),
    ("5 lb", "force", "`5 lb` is a mass, but a force is expected", "write `5 lbf`"),
    ("5 V", ("current", "insulation resistance"),
     "`5 V` is a voltage, but a current or an insulation resistance is expected",
     "write a current, such as `12 A`"),
]  # fmt: skip


@pytest.mark.parametrize(("written", "expected", "message", "mend"), OF_ANOTHER_QUANTITY)
def test_a_unit_must_fit_what_is_measured(written, expected, message, mend) -> None:
    """A unit of another quantity is an error; torque is not energy."""
    found = parse_quantity(written, expected)
    assert isinstance(found, Problem)
    assert ("unit-of-another-quantity", message, mend) == (found.rule, found.message, found.help)


def test_offsets_count_in_the_text_as_given() -> None:
    """Leading blanks and no-break spaces are not taken away before counting."""
    found = parse_quantity(f"  5{NO_BREAK}mohm ")
    assert isinstance(found, Problem)
    assert (found.start, found.end) == (4, 8)


def test_a_trade_name_is_what_it_is_a_kind_of() -> None:
    """An insulation resistance is written in ohms."""
    assert str(parse_quantity("5 MOhm", "insulation resistance")) == "5 MΩ"


def test_a_difference_of_temperatures_is_asked_for() -> None:
    """`5 °C` is a temperature, and a difference only where one is expected."""
    assert parse_quantity("5 °C").quantity == "temperature"
    assert str(parse_quantity("5 °C", "temperature difference")) == "5 K"
    assert str(parse_quantity("9 °F", "temperature difference")) == "9 Δ°F"
    assert parse_quantity("5 K").same_as(parse_quantity("9 °F", "temperature difference"))


def test_three_decimals_are_read_where_the_field_is_known_to_have_them() -> None:
    """A display with three decimals shows 1.000: there it is no riddle."""
    assert Decimal("1.000") == parse_quantity("1.000 V", "voltage", decimals=3).value
    assert isinstance(parse_quantity("1.000 V", "voltage", decimals=2), Problem)


def test_order_and_equality() -> None:
    """Equal as written, the same by size, ordered by size within one quantity."""
    volt, millivolts = parse_quantity("1 V"), parse_quantity("1000 mV")
    assert volt != millivolts
    assert volt.same_as(millivolts) and volt <= millivolts and volt >= millivolts
    assert parse_quantity("0.9 V") < millivolts < parse_quantity("1.1 V")
    assert not parse_quantity("1 N·m").same_as(parse_quantity("1 J"))
    with pytest.raises(TypeError):
        _ = volt < parse_quantity("1 A")


def test_a_torque_does_not_convert_into_an_energy() -> None:
    """The same dimension, two quantities; code that mixes them is at fault, so this raises."""
    with pytest.raises(ValueError, match="a torque cannot be given in J, a unit of energy"):
        parse_quantity("1 N·m").to("J")


def test_a_month_is_no_number_of_days() -> None:
    """Calendar time stays apart from time; a year is twelve months."""
    assert parse_quantity("12 months").quantity == "calendar time"
    assert parse_quantity("12 months").same_as(parse_quantity("1 year"))
    assert isinstance(parse_quantity("12 months", "time"), Problem)


@pytest.mark.parametrize(("written", "count"), [("4", 4), (" 12 ", 12), ("12 000", 12000)])
def test_counts(written: str, count: int) -> None:
    """A count is a whole number from 1 upwards."""
    assert count == parse_count(written)


@pytest.mark.parametrize(
    ("written", "rule", "message"),
    [
        ("0", "number-unreadable", "`0` is not a count"),
        ("-1", "number-unreadable", "`-1` is not a count"),
        ("4.0", "number-unreadable", "`4.0` is not a count"),
        ("four", "number-unreadable", "`four` does not begin with a number"),
        ("4 bolts", "number-unreadable", "`4 bolts` is not a count alone"),
        ("1.000", "number-ambiguous", "`1.000` can be read in two ways"),
    ],
)
def test_counts_refused(written: str, rule: str, message: str) -> None:
    """No halves, no words, no separators."""
    found = parse_count(written)
    assert isinstance(found, Problem)
    assert (rule, message) == (found.rule, found.message)


def test_reading_the_same_text_twice_gives_the_same_object() -> None:
    """Results are immutable and kept: a manual repeats its values."""
    assert parse_quantity("410 V") is parse_quantity("410 V")
    assert isinstance(parse_quantity("410 V"), Quantity)
