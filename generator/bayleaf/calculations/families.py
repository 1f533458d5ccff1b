"""The formulas by family, each family with a title: the first words of its module's docstring."""

import re
import sys
from itertools import groupby
from typing import NamedTuple

from .formula import Formula, all_formulas


class Family(NamedTuple):
    """The formulas of one module."""

    name: str
    title: str
    formulas: tuple[Formula, ...]


def families() -> tuple[Family, ...]:
    """Every family, in the order of their names."""
    return tuple(
        Family(name, _title(own := tuple(group)), own)
        for name, group in groupby(all_formulas(), lambda one: one.family)
    )


def family_of(formula: Formula) -> Family:
    """The family that a formula belongs to."""
    return next(one for one in families() if one.name == formula.family)


def _title(formulas: tuple[Formula, ...]) -> str:
    """What stands before the first colon or full stop of the docstring."""
    told = sys.modules[formulas[0].function.__module__].__doc__ or formulas[0].family.replace("_", " ").capitalize()
    return re.split(r"[:;.](?:\s|$)", told, maxsplit=1)[0]
