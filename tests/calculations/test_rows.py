"""Every calculation gives the published figures, and what its own formula gives, row by row."""

import importlib
import pkgutil
from typing import Any

import data.calculations
import pytest
from data.figures_table import PAGE, page
from data.row import Row

FAMILIES = [found.name for found in pkgutil.iter_modules(data.calculations.__path__)]
ALL = [(family, row) for family in FAMILIES for row in importlib.import_module(f"data.calculations.{family}").ROWS]


def approx(row: Row) -> Any:
    """What a row gives, with its tolerance; texts and truths stay as they are."""
    return tuple(_approx(one, row) for one in row.gives) if isinstance(row.gives, tuple) else _approx(row.gives, row)


def _approx(value: Any, row: Row) -> Any:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return value
    return pytest.approx(value, abs=row.within, rel=row.share if not row.within else 0)


@pytest.mark.parametrize(("family", "name"), dict.fromkeys((family, row.function) for family, row in ALL))
def test_every_row_of_a_function(family: str, name: str) -> None:
    """The function gives what each of its rows says."""
    function = getattr(importlib.import_module(f"bayleaf.calculations.{family}"), name)
    found = [(row, function(*row.given)) for of, row in ALL if (of, row.function) == (family, name)]

    assert [] == [(row, gives) for row, gives in found if approx(row) != gives]


def test_no_row_is_without_a_source() -> None:
    """Source and certainty stand at every row."""
    assert [] == [row for _, row in ALL if not row.source or not row.certainty]


def test_the_table_of_the_book_is_made_from_these_rows() -> None:
    """`python -m data.figures_table` writes it anew."""
    assert page() == PAGE.read_text("utf-8")


def test_every_family_has_published_figures() -> None:
    """No calculation that only agrees with itself."""
    published = {family for family, row in ALL if row.certainty in ("read", "restated")}
    assert set() == set(FAMILIES) - published
