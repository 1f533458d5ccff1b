"""The calculators of the manual: a page for each formula, and their index.

Without scripts a page still tells the law, its validity, its source, and an example that was computed beforehand.
"""

from functools import partial

from markupsafe import Markup

from ..calculations.answer import compute, curve_points, understood_text
from ..calculations.asked import call_of, example_of
from ..calculations.families import families, family_of
from ..calculations.formula import Formula, all_formulas
from ..manual import Manual
from .body import Body, Crumb, Heading, Page, Script, SearchRecord
from .calculator_fields import fields_of
from .drawings.curve import curve_words, drawn_curve
from .drawings.shapes import svg
from .formula_script import formula_script
from .indexes import index_body
from .layout import Entry, Section
from .templating import render

INDEX = "calculators.html"
_NO_BREAK = "\u00a0"


def calculator_pages() -> list[Page]:
    """A page for each formula."""
    return [
        Page(url_of(formula), formula.title, partial(calculator_body, formula), scripts()) for formula in all_formulas()
    ]


def url_of(formula: Formula) -> str:
    """The address of a calculator."""
    return f"calculators/{formula.slug}.html"


def scripts() -> tuple[Script, ...]:
    """What the browser needs to compute: the formulas are made, the rest lies in the theme."""
    return (
        Script("assets/exact.js"),
        Script("assets/python.js"),
        Script("assets/formulas.js", lambda: formula_script().script),
        Script("assets/calculators.js"),
    )


def calculators_body(_: Manual) -> Body:
    """The calculators by family."""
    sections = [
        Section(
            family.title,
            family.name.replace("_", "-"),
            tuple(
                Entry(url_of(one), one.title, ", ".join(output.title for output in one.outputs))
                for one in family.formulas
            ),
        )
        for family in families()
    ]
    lead = "Formulas of the trade, each with its law, its limits and its source. They work without a network."
    return index_body("Calculators", lead, sections, "There is no calculator.")


def calculator_body(formula: Formula) -> Body:
    """The page of one calculator."""
    asked = example_of(formula)
    example = [(one.input.title, _typeset(understood_text(one), one.values[0])) for one in asked.inputs]
    results = [(one.output.title, _typeset(one.text, one.value)) for one in compute(asked)]
    family = family_of(formula)
    html = render(
        "calculator",
        formula=formula,
        family=family,
        fields=fields_of(formula),
        works=formula.slug not in formula_script().missing,
        example=example,
        results=results,
        drawing=_drawing(formula),
        call=call_of(formula, formula.example),
    )
    toc = (Heading(2, "about", "Where it holds"), Heading(2, "example", "Example"))
    crumbs = (Crumb("Calculators", INDEX), Crumb(formula.title, None))
    return Body(html, toc, (_record(formula, family.title),), crumbs)


def _drawing(formula: Formula) -> Markup:
    """The curve of the example."""
    points = curve_points(example_of(formula))
    drawing = drawn_curve(formula.curve, points) if formula.curve is not None and points else None
    if drawing is None or formula.curve is None:
        return Markup("")
    return svg(drawing, "example", formula.title, curve_words(formula.curve, points))


def _typeset(text: str, value: object) -> str:
    """A number with a true minus and blanks that do not break; words as they are."""
    if isinstance(value, str):
        return text
    tied = text.replace("-", "−").replace(" ", _NO_BREAK)
    return tied.replace(f"{_NO_BREAK}={_NO_BREAK}", " = ").replace(f";{_NO_BREAK}", "; ")


def _record(formula: Formula, family: str) -> SearchRecord:
    titles = [*(one.title for one in formula.inputs), *(one.title for one in formula.outputs)]
    words = [family, *titles, formula.valid, formula.source]
    return SearchRecord(url_of(formula), f"Calculator: {formula.title}", "calculator", (formula.name,), " ".join(words))
