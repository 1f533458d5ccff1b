"""A calculation that can be used at the bench: what it is given, what it gives, and how the two are found.

A module of a family of calculations holds pure functions, and `FORMULAS`: those of them that the command line and the
calculators of the manual offer. Nothing lists the modules; they are found.

The functions that a formula calls, and all that these call, are also run in the browser, translated. So they use
numbers, texts, lists, tuples, dicts with texts as keys, `math`, and one another; no classes, no generators, no sets.
"""

import importlib
import pkgutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any


@dataclass(frozen=True, slots=True)
class Input:
    """What a formula is given.

    `name` is typed before the `=`; `unit` is the one in which the function counts, empty for a plain number and for
    one of the `choices`. `default` is what holds where nothing is given, as it would be typed; without one it must be
    given. `several`: one or more values, which the function takes as a list.
    """

    name: str
    title: str
    unit: str = ""
    default: str | None = None
    choices: tuple[str, ...] = ()
    several: bool = False


@dataclass(frozen=True, slots=True)
class Output:
    """What a formula gives: a number in `unit`, a plain number without one, or a text."""

    title: str
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Curve:
    """A curve to draw: `points` takes what the formula takes, and gives pairs in the units of `x` and `y`."""

    x: Output
    y: Output
    points: Callable[..., Any]


@dataclass(frozen=True, slots=True)
class Formula:
    """A calculation with names, units, law, range of validity and source.

    `function` takes the inputs in their order and gives a tuple with a value for each output; what it cannot compute it
    refuses with a ValueError whose text says why. `example` is one call as it would be typed.
    """

    name: str
    title: str
    inputs: tuple[Input, ...]
    outputs: tuple[Output, ...]
    function: Callable[..., tuple[Any, ...]]
    law: str
    valid: str
    source: str
    example: Mapping[str, str]
    curve: Curve | None = None

    @property
    def slug(self) -> str:
        """The name in an address and on a command line."""
        return self.name.lower().replace(" ", "-")

    @property
    def family(self) -> str:
        """The module that holds it."""
        return self.function.__module__.rpartition(".")[2]


@cache
def all_formulas() -> tuple[Formula, ...]:
    """Every formula there is, by family and in the order of its module."""
    package = importlib.import_module(__package__ or "bayleaf.calculations")
    modules = (
        importlib.import_module(f"{package.__name__}.{one.name}") for one in pkgutil.iter_modules(package.__path__)
    )
    return tuple(formula for module in modules for formula in getattr(module, "FORMULAS", ()))


def formula_named(name: str) -> Formula | None:
    """The formula of this name, written with blanks or hyphens."""
    wanted = name.strip().lower().replace(" ", "-")
    return next((one for one in all_formulas() if one.slug == wanted), None)
