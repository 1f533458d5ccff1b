"""The fields of a calculator: what is typed or chosen, and the exact factors of the units beside a number."""

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from ..calculations.asked import Understood, ask, example_of
from ..calculations.formula import Formula, Input
from ..quantities.numbers import plain
from ..quantities.quantity import Quantity
from ..quantities.units import QUANTITIES, Unit, unit

#: So many letters and figures has a symbol at most, such as `R25`.
_SYMBOL = 3


class Choice(NamedTuple):
    """A unit beside a number: what leads from it to the unit of the formula, as exact fractions."""

    symbol: str
    factor: str
    offset: str


class Filled(NamedTuple):
    """What stands in a field: the text, and the unit beside it."""

    text: str = ""
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Field:
    """One input of a formula on its page."""

    input: Input
    units: tuple[Choice, ...]
    example: Filled
    before: Filled

    @property
    def symbol(self) -> str:
        """The symbol that the law has for it; a name that is a word is left to the command line."""
        name = self.input.name
        return name if len(name) == 1 or (len(name) <= _SYMBOL and not (name.isalpha() and name.islower())) else ""

    @property
    def keys(self) -> str:
        """The keys that a phone shows: the pad for numbers lacks the semicolon, and on many the minus."""
        return "text" if self.input.several or self.input.unit in ("°C", "°F") else "decimal"


def fields_of(formula: Formula) -> tuple[Field, ...]:
    """A field for each input: empty, or with what holds by default."""
    return tuple(_field(one) for one in example_of(formula).inputs)


def _field(understood: Understood) -> Field:
    one = understood.input
    example = _filled(understood)
    before = Filled("", example.unit)
    if one.default is not None:
        before = _filled(_by_default(one))
    return Field(one, units_of(one), example, before)


def _by_default(one: Input) -> Understood:
    """An input as its default says."""
    alone = Formula(one.name, one.title, (one,), (), lambda *_: (), "", "", "", {})
    return ask(alone, ()).inputs[0]


def units_of(one: Input) -> tuple[Choice, ...]:
    """The units that may stand beside a number, in the order of the table; none beside a plain number."""
    if not one.unit:
        return ()
    own = unit(one.unit)
    return tuple(Choice(each.symbol, *map(str, _leading(each, own))) for each in QUANTITIES[own.quantity])


def _leading(given: Unit, own: Unit) -> tuple[Fraction, Fraction]:
    """Factor and offset from one unit to another: a value times the factor, plus the offset."""
    return given.factor / own.factor, (given.offset - own.offset) / own.factor


def _filled(understood: Understood) -> Filled:
    """The values of an input as they stand in its field, several of them in one unit."""
    values = understood.values
    if isinstance(values[0], str):
        return Filled(values[0])
    quantities = [one for one in values if isinstance(one, Quantity)]
    if not quantities:
        return Filled("; ".join(_number(one) for one in values if isinstance(one, Fraction)))
    symbols = {one.unit.symbol for one in quantities}
    if len(symbols) == 1:
        return Filled("; ".join(plain(one.value) for one in quantities), symbols.pop())
    own = understood.input.unit
    return Filled("; ".join(_number(one.to(own).value) for one in quantities), own)


def _number(value: Fraction) -> str:
    """A plain number as it was typed, to twelve figures."""
    return f"{float(value):.12g}"
