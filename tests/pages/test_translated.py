"""Python that means something else in JavaScript is translated so that it means the same."""

import math
import random
import re
import struct
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from math import inf, pi, sqrt
from typing import Any

import pytest
from bayleaf.calculations.answer import steps_of
from bayleaf.calculations.in_figures import shown
from bayleaf.pages.js_literal import js_literal
from bayleaf.pages.rewriting import Untranslatable
from bayleaf.pages.translated import Translation, standard_library
from js_kit import Node, alike, asset, calculators

TABLE = {"thin": (0.5, "a"), "thick": (2.5, "b")}
SIZES = (0.5, 1.0, 2.5)


def divisions(a: float, b: float) -> tuple[float, ...]:
    return a / b, a // b, a % b, (a + 0.5) ** 2, a**b


def rounding(a: float) -> tuple[Any, ...]:
    return round(a), round(a, 1), int(a), math.floor(a), math.ceil(a), abs(a)


def texts(a: float, name: str) -> tuple[str, ...]:
    return f"{a:g} {name!s}", f"{a:.1f}|{a:.3e}|{a:.3g}|{a:.0%}", name + "x" * 2, name.upper(), name.replace("a", "o")


def lists(values: list[float]) -> tuple[Any, ...]:
    """With docstring, comprehension, generator, slices, dict and keyword."""
    best: float | None = None
    for index, one in enumerate(values):
        if best is None or one > best:
            best = one
        if index > 5:
            break
    total = 0.0
    for one in values:
        total += one
    total /= 2
    keyed = {"thick": TABLE["thick"][0]}
    for key, row in TABLE.items():
        keyed[key] = row[0]
    return (
        best, total, sum(one * one for one in values), [one for one in SIZES if one >= values[0]], values[-1], values[:1],
        sorted(values, reverse=True), sorted(list(keyed)), keyed["thick"], "thin" in TABLE, max(values), min(values), len(TABLE), [a + b for a, b in zip(values, SIZES, strict=False)], all(values), any(values),
    )  # fmt: skip


def named(var: float, new: float = 2.0, default: float = 3.0) -> tuple[float, ...]:
    return _weighted(var, default=default), _weighted(new, 1.0), pi, math.hypot(var, new)


def _weighted(a: float, weight: float = 10.0, default: float = 1.0) -> float:
    return a * weight + default


def roots(a: float) -> float:
    return sqrt(a)


def powers(a: float) -> float:
    return a**0.5 if a < -1e300 else math.exp(a)


def shares(a: float, b: float) -> float:
    if a > b:
        raise ValueError(f"{a:g} is above {b:g}")
    return a / b


CALLS: list[tuple[Callable[..., Any], tuple[Any, ...]]] = [
    *((divisions, pair) for pair in ((7.0, 2.0), (-7.0, 2.0), (7.0, -2.0), (-7.5, -2.0), (0.3, 0.1))),
    *((rounding, (one,)) for one in (0.5, 1.5, 2.5, -0.5, -2.5, 0.25, 0.35, 2.675, 1e9 + 0.5)),
    *((texts, (one, "tap")) for one in (0.0, 1.5, 1e-5, 123456.0, 1234567.0, 100000.5, 0.125, 2.5, 1e22, -3.25)),
    (lists, ([1.0, 4.0, 2.0],)),
    (lists, ([0.0, 0.0],)),
    (named, (1.5,)),
    (named, (1.5, 2.5, 3.5)),
    (roots, (2.0,)),
    (powers, (1.0,)),
    (shares, (1.0, 4.0)),
]
REFUSED = [(roots, (-1.0,)), (powers, (1000.0,)), (shares, (0.0, 0.0)), (shares, (5.0, 4.0))]


def script(functions: list[Callable[..., Any]]) -> tuple[str, dict[Callable[..., Any], str]]:
    """The functions translated, with what they need."""
    into = Translation()
    names = {one: into.add(one) for one in dict.fromkeys(functions)}
    parts = [asset("python.js"), "Object.assign(globalThis, bayleafPython);", standard_library(into)]
    parts += [f"const {name} = {text};" for name, text in into.tables.items()]
    return "\n".join([*parts, *into.functions.values()]), names


def plain(value: Any) -> Any:
    return [plain(one) for one in value] if isinstance(value, tuple | list) else value


def test_the_same_comes_out(node: Node) -> None:
    """Signs of remainders, ties, texts of numbers, order, tables, names that are words of JavaScript."""
    text, names = script([one for one, _ in CALLS])
    calls = ", ".join(f"{names[one]}(...{js_literal(list(given_))})" for one, given_ in CALLS)

    found = node(f"{text}\nanswer = [{calls}];")

    expected = [plain(one(*given_)) for one, given_ in CALLS]
    assert [] == [pair for pair in zip(expected, found, strict=True) if not alike(*pair)]


def test_the_same_is_refused(node: Node) -> None:
    """Where Python raises an error, JavaScript does; its own refusals keep their sentence."""
    text, names = script([one for one, _ in REFUSED])
    calls = ", ".join(f"() => {names[one]}(...{js_literal(list(given_))})" for one, given_ in REFUSED)
    program = f"answer = [{calls}].map((one) => {{ try {{ one(); return null; }} catch (e) {{ return e.message; }} }});"

    found = node(f"{text}\n{program}")

    for (one, given_), said in zip(REFUSED, found, strict=True):
        with pytest.raises((ValueError, ArithmeticError)):
            one(*given_)
        assert said is not None
    assert found[3] == "ValueError: 5 is above 4"


def _lambda(a: float) -> float:
    return (lambda one: one * a)(2.0)


def _matched(a: float) -> float:
    match a:
        case 1.0:
            return 2.0
    return 1.0


def _of_a_class(a: float) -> float:
    return float(Fraction(a))


def _reaches(a: float) -> float:
    return _of_a_class(a) + 1


def _set_literal(a: float) -> bool:
    return a in {1.0, 2.0} and bool(Decimal)


def _dict_of(a: float) -> float:
    return len({key: a for key in TABLE})


def _gamma(a: float) -> float:
    return math.gamma(a)


def _wide(a: float) -> str:
    return f"{a:>10}"


@pytest.mark.parametrize(
    ("function", "told"),
    [
        (_matched, "_matched"),
        (_of_a_class, "_of_a_class"),
        (_reaches, "_of_a_class"),
        (_set_literal, "_set_literal"),
        (_dict_of, "DictComp"),
        (_gamma, "`math.gamma` has no translation"),
        (_wide, "the form `>10` of a text"),
    ],
)
def test_what_has_no_translation_is_told(function: Callable[..., Any], told: str) -> None:
    """With the name of the function in which it stands."""
    with pytest.raises(Untranslatable, match=re.escape(told)):
        Translation().add(function)


def test_a_lambda_is_translated() -> None:
    """PScript knows them."""
    assert Translation().add(_lambda)


# ---- how results are shown ---------------------------------------------------------------------------

UNITS = ("", "V", "Ω", "F", "s", "mm²", "N·m", "°C", "°", "Ω/km", "%")
NUMBERS = [
    0.0, 1.0, 0.1 + 0.2, 999.95, 999.949999, 99995.0, 0.99995, 12345.0, 12345678.0, 1e-7, 9.8659e-10, 1e12, 5e-324, 1e300,
    -1e-3, -59.405, 1.2345, 1.23449999999999, 1.23450000000001, 300.0, 299.99, 17999.0, 18000.0, inf, -inf, 2.5e-3, 0.00125,
    1000.4999999999999, 1234567.890625,
]  # fmt: skip


def test_texts_of_results_are_the_same_in_both(node: Node) -> None:
    """Every number in every unit, rounded half up to four figures."""
    cases = [[value, list(steps_of(unit))] for value in NUMBERS for unit in UNITS]

    found = node(
        calculators() + f"answer = {js_literal(cases)}.map(([value, steps]) => bayleafFormulas.shown(value, steps));"
    )

    assert [shown(*case) for case in cases] == found


def some_numbers() -> list[float]:
    """Numbers of every size, short ones whose figures end in a 5, and neighbours of both."""
    chance = random.Random(11)
    bits = [struct.unpack("<d", chance.randbytes(8))[0] for _ in range(1500)]
    short = [chance.randrange(-(10**6), 10**6) * 5 / 10 ** chance.randrange(9) for _ in range(1500)]
    found = [one for one in (*bits, *short) if math.isfinite(one)]
    return [*NUMBERS, *found, *(math.nextafter(one, inf) for one in short)]


def test_numbers_are_written_as_python_writes_them(node: Node) -> None:
    """In the forms that f-strings of formulas use; ties go to the even figure."""
    numbers = some_numbers()
    forms = ("g", ".3g", ".6g", ".11e", ".0f", ".1f", ".4f", ".0%")
    program = f"answer = {js_literal(numbers)}.map((one) => {js_literal(forms)}.map((form) => bayleafPython.py_format(one, form)));"

    found = node(asset("python.js") + program)

    wrong = [
        (value, form, format(value, form), text)
        for value, texts_ in zip(numbers, found, strict=True)
        for form, text in zip(forms, texts_, strict=True)
        if format(value, form) != text and (abs(value) < 1e15 or form[-1] in "ge")  # sums are never as large
    ]
    assert [] == wrong


def test_numbers_are_shown_alike(node: Node) -> None:
    """The same numbers as results."""
    cases = [[value, list(steps_of("V"))] for value in some_numbers()]

    found = node(
        calculators() + f"answer = {js_literal(cases)}.map(([value, steps]) => bayleafFormulas.shown(value, steps));"
    )

    assert [shown(*case) for case in cases] == found
