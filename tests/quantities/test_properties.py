"""Laws that hold for every value, tried on random ones."""

import re
from decimal import Decimal
from fractions import Fraction

from bayleaf.quantities import (
    QUANTITIES,
    UNITS,
    Exact,
    Limit,
    Problem,
    Quantity,
    dual,
    find_unit,
    judge,
    limit_from_map,
    other_system,
    parse_count,
    parse_limit,
    parse_quantity,
    schema_pattern,
    show,
)
from bayleaf.quantities.display import OTHER_UNIT
from bayleaf.quantities.numbers import exact_decimal
from bayleaf.quantities.units import spellings
from hypothesis import assume, example, given
from hypothesis import strategies as st

units = st.sampled_from(list(UNITS.values()))
numbers = st.decimals(-(10**9), 10**9, allow_nan=False, allow_infinity=False, places=None).filter(
    lambda number: -9 <= number.as_tuple().exponent <= 0
)
quantities = st.builds(Quantity, numbers, units)
#: Texts made of the pieces that values are made of, and of anything.
scraps = st.one_of(
    st.text(max_size=30),
    st.lists(
        st.sampled_from(
            ["5", "1.000", "0,5", "1/2", " ", "\u00a0", "V", "Ω", "mohm", "Nm", "%", "°C", "±", "+", "−", "-",
             "to", "at least ", "at most ", "/", ".", ",", "e3", "½", "\u200b", "(", ")", "min", "max ", "–"]
        ),
        max_size=9,
    ).map("".join),
)  # fmt: skip

_SPELLINGS = [spelling for unit in UNITS.values() for spelling in spellings(unit)]
_BLANKS = st.sampled_from(["", " ", "\u00a0", "\u202f"])


@st.composite
def written(draw, of: str | None = None) -> str:
    """A value in any accepted spelling, with any blank and minus; or in the spellings of one unit."""
    number = str(draw(numbers)).replace("-", draw(st.sampled_from(["-", "−", "–"])))
    spelling = draw(st.sampled_from(spellings(UNITS[of]) if of else _SPELLINGS))
    return number + draw(_BLANKS) + spelling


@st.composite
def written_limits(draw) -> str:
    """A limit in any form, possible or not."""
    unit = draw(units)
    one, other = (draw(written(unit.symbol)) for _ in range(2))
    size = f"{draw(st.integers(0, 99))} {unit.symbol}"
    tolerance = draw(st.sampled_from([size, "5 %", "0.25 %"]))
    forms = ["{0} to {1}", "at least {0}", "at most {1}", "{0} ± {2}", "{0} +- {2}"]
    forms += ["{0} +{2} −{2}", "{0} +5 %/-{2}"]
    return draw(st.sampled_from(forms)).format(one, other, tolerance)


@given(quantities)
def test_the_canonical_text_gives_the_quantity_again(quantity: Quantity) -> None:
    """Whatever its value and unit."""
    assert quantity == parse_quantity(str(quantity))


@given(quantities)
def test_the_shown_text_gives_the_quantity_again_where_its_decimals_are_known(quantity: Quantity) -> None:
    """The page shows what the file says."""
    decimals = -quantity.value.as_tuple().exponent
    assert quantity == parse_quantity(show(quantity), decimals=decimals)


@given(quantities, st.data())
def test_conversion_and_back_is_exact(quantity: Quantity, data) -> None:
    """No digit is lost on the way."""
    target = data.draw(st.sampled_from(QUANTITIES[quantity.quantity]))
    there = quantity.to(target.symbol)
    back = Exact.of(there.value * target.factor + target.offset, quantity.unit, quantity.quantity)
    assert Fraction(quantity.value) == back.value


@given(quantities, numbers, st.data())
def test_order_does_not_depend_on_units(one: Quantity, value: Decimal, data) -> None:
    """Less in one unit is less in every unit."""
    other = Quantity(value, data.draw(st.sampled_from(QUANTITIES[one.quantity])))
    scale = data.draw(st.sampled_from(QUANTITIES[one.quantity])).symbol
    assert (one < other) == (one.to(scale).value < other.to(scale).value)
    assert (one <= other) == (one.to(scale).value <= other.to(scale).value)
    assert one.same_as(other) == (one.to(scale).value == other.to(scale).value)


@given(quantities, numbers, numbers, st.fractions(0, 10), st.data())
def test_the_verdict_does_not_depend_on_units(reading, low, high, band, data) -> None:
    """The same reading and limit in another unit take the same exit."""
    low, high = sorted((low, high))
    limit = Limit(Quantity(low, reading.unit), Quantity(high, reading.unit))
    scale = data.draw(st.sampled_from(QUANTITIES[reading.quantity])).symbol
    converted = [quantity.to(scale).decimal() for quantity in (reading, limit.low, limit.high)]
    assume(None not in converted)
    assert judge(reading, limit, band) == judge(converted[0], Limit(*converted[1:]), band)


paired = st.builds(Quantity, numbers, units.filter(lambda unit: unit.symbol in OTHER_UNIT))


@given(paired, numbers)
@example(Quantity(Decimal("0"), UNITS["N·m"]), Decimal("0.000000001"))
def test_rounding_inward_never_widens(one: Quantity, value: Decimal) -> None:
    """Both ends in the other system lie within the limit, and in their order."""
    low, high = sorted((one, Quantity(value, one.unit)))
    for limit in (Limit(low, high), Limit(low=low), Limit(high=high)):
        second = other_system(limit)
        if second is None:
            assert low.same_as(high)
            continue
        assert limit.interval.covers(second.interval)
        assert not second.interval.empty


@given(paired)
def test_a_plain_value_is_not_rounded_more_coarsely_than_it_was_written(quantity: Quantity) -> None:
    """Half a step of the second figure is no more than half a step of the first (SP 811, B.7.2)."""
    second = other_system(quantity)
    step = Fraction(10) ** quantity.value.as_tuple().exponent * quantity.unit.factor
    assert abs(second.si - quantity.si) <= step / 2


@given(scraps)
@example("9" * 5000)
@example("1/" + "9" * 5000)
@example("1e" + "9" * 5000)
def test_nothing_written_makes_a_parser_raise(text: str) -> None:
    """Every text gives a value or a problem that lies inside it and says something."""
    found = [parse_quantity(text), parse_quantity(text, "voltage"), parse_limit(text), parse_count(text)]
    found += [parse_limit(text, ("torque", "temperature")), find_unit(text)]
    mapped = limit_from_map(at_least=text, at_most=text)
    tolerance = limit_from_map(nominal="5 V", tolerance=text)
    for several in (mapped, tolerance):
        found += [several] if isinstance(several, Limit) else [problem for _, problem in several]
    for one in found:
        if isinstance(one, Problem):
            assert 0 <= one.start <= one.end <= len(text)
            assert one.message


@given(st.one_of(scraps, written(), written_limits()))
def test_patterns_are_never_stricter_than_the_parsers(text: str) -> None:
    """An editor does not underline what the checker accepts."""
    if isinstance(parse_quantity(text), Quantity):
        assert re.search(schema_pattern("quantity"), text)
    if isinstance(parse_limit(text), Limit):
        assert re.search(schema_pattern("limit"), text)


@given(written_limits())
def test_what_a_limit_is_written_back_as_means_the_same(text: str) -> None:
    """The canonical words of any accepted limit give the same limit."""
    limit = parse_limit(text)
    if isinstance(limit, Limit):
        again = parse_limit(str(limit))
        assert (limit, limit.interval) == (again, again.interval)
        assert dual(limit)


nominals = st.builds(Quantity, numbers, units.filter(lambda unit: unit.quantity not in ("temperature", "ratio")))


@given(nominals, st.decimals(0, 100, places=2))
def test_a_tolerance_is_symmetric_and_exact(nominal: Quantity, percent: Decimal) -> None:
    """The nominal value lies in the middle, each end the stated share away."""
    limit = parse_limit(f"{nominal} ± {Quantity(percent, UNITS['%'])}")
    assume(isinstance(limit, Limit))
    share = abs(nominal.si) * Fraction(percent) / 100
    assert (nominal.si - share, nominal.si + share) == (limit.low.si, limit.high.si)


@given(st.fractions(max_denominator=10**12))
@example(Fraction(1, 3))
@example(Fraction(-7, 5**17))
def test_a_decimal_is_exact_or_none(fraction: Fraction) -> None:
    """None exactly where the digits never end: where no power of ten holds the denominator."""
    value = exact_decimal(fraction)
    ends = 10**40 % fraction.denominator == 0
    assert (fraction if ends else None) == (None if value is None else Fraction(value))
