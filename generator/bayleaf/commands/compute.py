"""`bayleaf compute`: the formulas of the calculators, on the command line."""

import json
import sys
import textwrap
from collections.abc import Iterable
from math import isfinite
from pathlib import Path
from typing import Any

import click

from ..calculations.answer import Result, compute, curve_points, understood_text
from ..calculations.asked import Asked, Refused, ask, call_of, example_of, find_formula, split_call
from ..calculations.families import families
from ..calculations.formula import Formula, Input, all_formulas
from ..diagnostics.report_text import can_show
from ..pages.drawings.curve import curve_words, drawn_curve, svg_file
from ..pages.drawings.curve_text import curve_text
from . import _completing
from ._help import WithExamples
from .common import WrongCall, click_width, is_plain, say, write_utf8


@click.command(
    "compute",
    cls=WithExamples,
    examples=(
        ("bayleaf compute", "all formulas"),
        ("bayleaf compute discharge", "what it takes, its law, an example"),
        ("bayleaf compute discharge R=47kohm C=1.1mF from=410V", "the time until 60 V are left"),
        ("bayleaf compute discharge R=47kohm C=1.1mF from=410V --plot", "with the curve"),
    ),
)
@click.argument("words", nargs=-1, metavar="[FORMULA] [NAME=VALUE]...", shell_complete=_completing.formulas)
@click.option("--plot", is_flag=True, help="Draw the curve, where the formula has one.")
@click.option("--svg", type=click.Path(path_type=Path, dir_okay=False), help="Write the curve into this file, as SVG.")
@click.option(
    "--format", "form", type=click.Choice(("text", "json")), default="text", show_default=True, help="How to answer."
)
def command(words: tuple[str, ...], plot: bool, svg: Path | None, form: str) -> int:
    """Compute at the bench: discharge, cables, threads, sensors.

    Without a FORMULA, list them all. With a FORMULA alone, tell what it takes, its law, where it holds and its source.
    """
    try:
        name, given = split_call(words)
        if given and not name:
            raise Refused(
                f"the name of the formula comes first; write `bayleaf compute discharge {words[0]}`, for instance"
            )
        formula = find_formula(name) if name else None
        if formula is None or not given:
            if plot or svg or form != "text":
                raise Refused("--plot, --svg and --format go with a formula and its values")
            say(_description(formula) if formula else _list())
            return 0
        return _computed(ask(formula, given), plot, svg, form)
    except Refused as error:
        raise WrongCall(str(error)) from error


def _computed(asked: Asked, plot: bool, svg: Path | None, form: str) -> int:
    results = compute(asked)
    if (plot or svg) and asked.formula.curve is None:
        those = ", ".join(one.slug for one in all_formulas() if one.curve is not None)
        raise Refused(f"{asked.formula.slug} has no curve; these have one: {those}")
    if plot and form == "json":
        raise Refused("--plot draws for a reader, --format json prints for a program; leave out one of them")
    points = curve_points(asked) if plot or svg else []
    if (plot or svg) and len(points) < 2:
        raise Refused(f"no curve of {asked.formula.slug} can be drawn with these values: it has no end")
    if svg is not None:
        _write_svg(asked.formula, points, svg)
    if form == "json":
        write_utf8(json.dumps(_data(asked, results), ensure_ascii=False, indent=2) + "\n")
        return 0
    say(_text(asked, results))
    if plot and asked.formula.curve is not None:
        all_signs = not is_plain(sys.stdout) and can_show(sys.stdout.encoding)("⣀┤")
        say("\n" + curve_text(asked.formula.curve, points, all_signs, min(100, max(50, click_width()))))
        say("\n" + curve_words(asked.formula.curve, points))
    if svg is not None:
        say(f"\nThe curve is in {svg}")
    return 0


def _write_svg(formula: Formula, points: list[tuple[float, float]], path: Path) -> None:
    drawing = drawn_curve(formula.curve, points) if formula.curve is not None else None
    if drawing is None or formula.curve is None:
        raise Refused(f"no curve of {formula.slug} can be drawn with these values: it is one point")
    if path.suffix.lower() != ".svg":
        raise Refused(
            f"the curve is an SVG drawing; write a name that ends in .svg, such as `--svg {path.stem or 'curve'}.svg`"
        )
    path.write_text(
        svg_file(drawing, formula.title, curve_words(formula.curve, points)), encoding="utf-8", newline="\n"
    )


def _list() -> str:
    """All formulas by family."""
    width = max(len(one.slug) for one in all_formulas()) + 2
    blocks = []
    for family in families():
        blocks.append("\n".join([family.title, *(f"  {one.slug:<{width}}{one.title}" for one in family.formulas)]))
    return "\n\n".join(blocks)


def _description(formula: Formula) -> str:
    """What a formula takes and gives."""
    takes = [(one.name, f"{one.title}{_kind(one)}") for one in formula.inputs]
    gives = [("", f"{one.title}{f' ({one.unit})' if one.unit else ''}") for one in formula.outputs]
    rows = ["Takes", *_rows(takes), "", "Gives", *(f"  {text}" for _, text in gives)]
    example = [f"Example:  {call_of(formula, formula.example)}"]
    example += [f"          {one.output.title}: {one.text}" for one in compute(example_of(formula))]
    return "\n".join([_head(formula), "", *rows, "", *_foot(formula), *example])


def _kind(one: Input) -> str:
    """Unit, choices and default of an input, behind its title."""
    parts = [one.unit] if one.unit else ["a plain number"] if not one.choices else []
    if one.several:
        parts.append("several, with ; between them")
    if one.choices:
        parts.append(f"one of: {'; '.join(one.choices)}")
    parts.append(f"{one.default} if it is left out" if one.default is not None else "")
    return f" ({'; '.join(filter(None, parts))})"


def _text(asked: Asked, results: Iterable[Result]) -> str:
    """The law, what was understood, and the results."""
    given = [
        (f"{one.input.title} ({one.input.name})", understood_text(one) + ("   by default" if one.by_default else ""))
        for one in asked.inputs
    ]
    found = [(one.output.title, one.text) for one in results]
    width = max(len(label) for label, _ in [*given, *found]) + 3
    return "\n".join(
        [_head(asked.formula), "", *_rows(given, width), "", *_rows(found, width), "", *_foot(asked.formula)]
    )


def _head(formula: Formula) -> str:
    return f"{formula.title} ({formula.slug})\n{formula.law}"


def _foot(formula: Formula) -> list[str]:
    return [*_wrapped("Valid:    ", formula.valid), *_wrapped("Source:   ", formula.source)]


def _wrapped(label: str, text: str, width: int = 100) -> list[str]:
    return textwrap.wrap(text, width, initial_indent=label, subsequent_indent=" " * len(label))


def _rows(rows: Iterable[tuple[str, str]], width: int = 0) -> list[str]:
    """Labels and texts in two columns."""
    rows = list(rows)
    column = width or max(len(label) for label, _ in rows) + 3
    return [line for label, text in rows for line in _wrapped(f"  {label:<{column}}", text)]


def _data(asked: Asked, results: Iterable[Result]) -> dict[str, Any]:
    """The results as data; what has no end is null there, its text says so."""
    return {
        "formula": asked.formula.slug,
        "inputs": [
            {"name": one.input.name, "value": one.argument, "unit": one.input.unit, "text": understood_text(one)}
            for one in asked.inputs
        ],
        "results": [
            {"title": one.output.title, "value": _finite(one.value), "unit": one.output.unit, "text": one.text}
            for one in results
        ],
        "law": asked.formula.law,
        "valid": asked.formula.valid,
        "source": asked.formula.source,
    }


def _finite(value: Any) -> Any:
    return None if isinstance(value, float) and not isfinite(value) else value
