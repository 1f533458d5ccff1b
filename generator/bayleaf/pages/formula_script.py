"""The script of the calculators: every formula in JavaScript, translated from the functions that Python itself calls.

So the browser computes what the command line computes, with the same tables, refusals and figures, and nobody writes a
formula twice. A formula that cannot be translated is left out, and its page says so; a test names it.
"""

from collections.abc import Callable
from functools import cache
from typing import Any, NamedTuple

from ..calculations.answer import BEYOND, steps_of
from ..calculations.formula import Formula, Output, all_formulas
from ..calculations.in_figures import shown
from .drawings.curve_layout import formula_curve
from .js_literal import js_literal
from .rewriting import MATH, OURS, Untranslatable
from .translated import Translation, standard_library

_PYTHON = sorted((*(f"py_{name}" for name in OURS), *(f"math_{name}" for name in MATH)))
_OPERATIONS = ("py_div", "py_floordiv", "py_format", "py_join", "py_mod", "py_pow")


class Translated(NamedTuple):
    """The whole script, and why formulas are missing in it, by their slug."""

    script: str
    missing: dict[str, str]
    #: The name in the script of each function that was translated, by module and name.
    names: dict[tuple[str, str], str]


@cache
def formula_script() -> Translated:
    """The script with all formulas that could be translated."""
    return translate(all_formulas())


def translate(formulas: tuple[Formula, ...]) -> Translated:
    """The script with these formulas. It defines `bayleafFormulas`: by slug what computes, and what shows results."""
    into, missing = Translation(), {}
    entries = []
    for formula in formulas:
        try:
            entries.append(f"{js_literal(formula.slug)}: {_entry(formula, into)}")
        except Untranslatable as error:
            missing[formula.slug] = str(error)
    shared = {"shown": into.add(shown), "drawn": into.add(formula_curve)}
    functions = {name: text for name, text in into.functions.items() if name not in into.failed}
    lines = [
        "/* The formulas of the calculators, translated from Python: made anew with every rendering. */",
        "globalThis.bayleafFormulas = (() => {",
        '"use strict";',
        f"const {{{', '.join([*_OPERATIONS, *_PYTHON])}}} = bayleafPython;",
        standard_library(into),
        *(f"const {name} = {text};" for name, text in into.tables.items()),
        *functions.values(),
        f"const functions = {{{', '.join(functions)}}};",
        "const formulas = {",
        *(f"{entry}," for entry in entries),
        "};",
        f"const shown = {shared['shown']}, drawn = {shared['drawn']}, beyond = {js_literal(BEYOND)};",
        "return {formulas, functions, shown, drawn, beyond};",
        "})();",
    ]
    script = "\n".join(line.strip() for line in "\n".join(lines).splitlines() if line.strip()) + "\n"
    names = {tuple(name.split("__", 1)): name for name in functions}
    return Translated(script, missing, names)  # type: ignore[arg-type]


def _entry(formula: Formula, into: Translation) -> str:
    """What the script knows of a formula: what computes it, the units of its results, and its curve."""
    outputs = [_steps(one) for one in formula.outputs]
    parts = [f"compute: {into.add(formula.function)}", f"outputs: {js_literal(outputs)}"]
    if formula.curve is not None:
        x, y = formula.curve.x, formula.curve.y
        axes = [x.title, _steps(x), y.title, _steps(y)]
        parts += [f"points: {into.add(formula.curve.points)}", f"axes: {js_literal(axes)}"]
    return f"{{{', '.join(parts)}}}"


def _steps(output: Output) -> list[Any]:
    return list(steps_of(output.unit))


def name_in_script(function: Callable[..., Any]) -> str | None:
    """The name of a function in the script; None where no formula reaches it."""
    module = function.__module__.rpartition(".")[2]
    return formula_script().names.get((module, function.__name__))
