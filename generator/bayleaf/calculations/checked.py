"""What a calculation refuses, said in one way."""

from collections.abc import Sequence
from math import inf


def above_zero(name: str, value: float) -> None:
    """Refuses what is not a figure above 0."""
    if not value > 0:
        raise ValueError(f"{name} is {value:g}; it has to be above 0")
    if value == inf:
        raise ValueError(f"{name} has no end; it has to be a figure")


def not_negative(name: str, value: float) -> None:
    """Refuses what is not a figure of 0 or more."""
    if not value >= 0:
        raise ValueError(f"{name} is {value:g}; it has to be 0 or more")
    if value == inf:
        raise ValueError(f"{name} has no end; it has to be a figure")


def known(name: str, value: str, choices: Sequence[str]) -> None:
    """Refuses a word that is none of the choices."""
    if value not in choices:
        raise ValueError(f"{name} `{value}` is not known; known are {', '.join(choices)}")
