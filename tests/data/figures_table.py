"""The table of the book that says which published figures each calculation is held to, made from the rows.

`python -m data.figures_table`, in `tests/`, writes it anew.
"""

import importlib
import pkgutil
import re
from collections import Counter
from pathlib import Path

import data.calculations
from data.row import Row

PAGE = Path(__file__).parents[2] / "procedures" / "book" / "figures.md"

_HEAD = """\
# What the figures are held to

Every calculation is held to published figures: each row below is checked whenever the program is tested, in Python and in the
script of the calculators. *Published* figures were read in the standard or data sheet itself, or in a second source that prints them;
the standards themselves were mostly not at hand. *Computed* ones follow from the formula and only hold its digits. What comes *from
memory*, or where sources *conflict*, is counted apart: nothing that safety rests on takes it as a default.

"""
_COLUMNS = ("Calculation", "Published", "Computed", "From memory", "Conflicting")


def page() -> str:
    """The whole page."""
    total: Counter[str] = Counter()
    parts = []
    for family in families():
        rows = rows_of(family)
        total.update(_counts(rows))
        parts.append(_part(family, rows))
    line = f"In all: {total['published']} published, {total['computed']} computed, {total['from memory']} from memory, "
    return _HEAD + line + f"{total['conflicting']} where sources conflict.\n\n" + "\n".join(parts)


def families() -> list[str]:
    """The modules that have rows."""
    return [found.name for found in pkgutil.iter_modules(data.calculations.__path__)]


def rows_of(family: str) -> tuple[Row, ...]:
    """The rows of a family."""
    return tuple(importlib.import_module(f"data.calculations.{family}").ROWS)


def _part(family: str, rows: tuple[Row, ...]) -> str:
    """A heading, the source, and a line for each function."""
    doc = importlib.import_module(f"bayleaf.calculations.{family}").__doc__ or ""
    title = doc.split("\n", 1)[0].rstrip(".")
    source = " ".join(re.split(r"\n\n", doc.split("Source:", 1)[-1].strip())[0].split()) if "Source:" in doc else ""
    lines = [f"## {title}", "", f"Source: {source}", "", _line(_COLUMNS), _line(("---", *["---:"] * 4))]
    for function in dict.fromkeys(row.function for row in rows):
        counts = _counts(tuple(row for row in rows if row.function == function))
        figures = (counts[key] for key in ("published", "computed", "from memory", "conflicting"))
        lines.append(_line((function.replace("_", " "), *(str(figure) if figure else "" for figure in figures))))
    return "\n".join(lines) + "\n"


def _counts(rows: tuple[Row, ...]) -> Counter[str]:
    """Figures by how they came here: a row that gives several counts as several."""
    counts: Counter[str] = Counter()
    for row in rows:
        key = "published" if row.certainty in ("read", "restated") else row.certainty
        gives = row.gives if isinstance(row.gives, tuple) else (row.gives,)
        counts[key] += sum(figure is not None for figure in gives)
    return counts


def _line(cells: tuple[str, ...]) -> str:
    return "| " + " | ".join(cells) + " |"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
