"""What tests of scripts share: the assets as text, and how a formula answers in Python and in JavaScript."""

import re
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

import pytest
from bayleaf import folders
from bayleaf.calculations.answer import BEYOND, compute, curve_points
from bayleaf.calculations.asked import Asked, Refused
from bayleaf.calculations.formula import Formula
from bayleaf.pages.drawings.curve import layout_of
from bayleaf.pages.formula_script import formula_script
from bayleaf.pages.js_literal import js_literal

Node = Callable[[str], Any]

#: Beyond the last figure: the functions of two languages may differ there.
CLOSE = 1e-9


def asset(name: str) -> str:
    """A script of the theme."""
    return (folders.site_theme() / "assets" / name).read_text(encoding="utf-8")


def calculators(formulas: str | None = None) -> str:
    """All that the page of a calculator loads; `formulas` stands in for the made script."""
    made = formula_script().script if formulas is None else formulas
    return "\n".join([asset("exact.js"), asset("python.js"), made, asset("calculators.js")])


class Outcome(NamedTuple):
    """What a formula gives: results and their texts, or why it refuses, and the layout of its curve."""

    results: tuple[Any, ...] | None
    texts: tuple[str, ...]
    refused: str
    curve: Any


def in_python(asked: Asked) -> Outcome:
    """What Python gives."""
    try:
        found = compute(asked)
    except Refused as error:
        return Outcome(None, (), plain(str(error).partition(": ")[2]), None)
    curve = asked.formula.curve
    layout = None if curve is None else layout_of(curve, curve_points(asked))
    return Outcome(tuple(one.value for one in found), tuple(one.text for one in found), "", layout)


def in_javascript(node: Node, calls: Sequence[Asked], script: str | None = None) -> list[Outcome]:
    """What JavaScript gives for these calls, in one run."""
    data = js_literal([[one.formula.slug, one.arguments] for one in calls])
    program = f"""
    answer = {data}.map(([slug, given]) => {{
      const found = bayleafCalculators.compute(slug, given);
      return {{...found, curve: found.texts ? bayleafCalculators.drawn(slug, given) : null}};
    }});
    """
    return [_outcome(one) for one in node(calculators(script) + program)]


def _outcome(found: dict[str, Any]) -> Outcome:
    if "refused" in found:
        return Outcome(None, (), plain(found["refused"]), None)
    return Outcome(tuple(found["results"]), tuple(found["texts"]), "", found["curve"])


def plain(sentence: str) -> str:
    """A refusal without the `.0` of whole numbers, which JavaScript does not write, and one sentence for all that leads
    out of what can be computed."""
    return re.sub(r"(\d)\.0\b", r"\1", sentence) if sentence != BEYOND else "beyond"


def alike(expected: Any, actual: Any) -> bool:
    """Whether two results are the same but for the last figures of their numbers."""
    if isinstance(expected, list | tuple):
        return isinstance(actual, list | tuple) and len(expected) == len(actual) and all(map(alike, expected, actual))
    if isinstance(expected, bool) or not isinstance(expected, int | float):
        return expected == actual and type(expected) is type(actual)
    if isinstance(actual, bool) or not isinstance(actual, int | float):
        return False
    return actual == pytest.approx(expected, rel=CLOSE, abs=1e-300)


def differences(formula: Formula, asked: Asked, expected: Outcome, actual: Outcome) -> list[str]:
    """What is not the same, with the call that shows it."""
    call = f"{formula.slug} {asked.arguments}"
    found = [
        f"{call}: {name}"
        for name in ("results", "curve")
        if not alike(*(getattr(one, name) for one in (expected, actual)))
    ]
    found += [f"{call}: {name}" for name in ("texts", "refused") if getattr(expected, name) != getattr(actual, name)]
    return [
        f"{line}: expected {expected.results or expected.refused}, found {actual.results or actual.refused}"
        for line in found
    ]
