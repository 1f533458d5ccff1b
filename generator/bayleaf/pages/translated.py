"""Functions translated from Python to JavaScript, with all that they reach: other functions, tables, numbers.

The translation is PScript's, of what `rewriting` made of a function; tables are put in as they stand after the import.
"""

import ast
import inspect
from collections.abc import Callable
from dataclasses import dataclass, field
from textwrap import dedent
from types import FunctionType
from typing import Any

from .js_literal import NoLiteral, js_literal
from .rewriting import Rewriter, Untranslatable


@dataclass
class Translation:
    """What was translated so far: the name in JavaScript of each function and table, and its text."""

    functions: dict[str, str] = field(default_factory=dict)
    tables: dict[str, str] = field(default_factory=dict)
    standard: set[str] = field(default_factory=set)
    methods: set[str] = field(default_factory=set)
    #: Why a function could not be translated, by its name.
    failed: dict[str, str] = field(default_factory=dict)
    reached: dict[str, set[str]] = field(default_factory=dict)
    _places: dict[int, str] = field(default_factory=dict)

    def add(self, function: Callable[..., Any]) -> str:
        """Translate a function and what it reaches; gives its name. Raises `Untranslatable`."""
        name = self._reach(function)
        for one in self._all_below(name, set()):
            if one in self.failed:
                raise Untranslatable(self.failed[one])
        return name

    def _all_below(self, name: str, seen: set[str]) -> set[str]:
        if name not in seen:
            seen.add(name)
            for one in self.reached.get(name, ()):
                self._all_below(one, seen)
        return seen

    def _reach(self, function: Callable[..., Any], by: str | None = None) -> str:
        """The name of a function, translated if it was not yet; `by` is the one that calls it."""
        function = inspect.unwrap(function)
        if not isinstance(function, FunctionType) or "<" in function.__qualname__ or "." in function.__qualname__:
            raise Untranslatable(f"{function!r} is not a function of a module")
        name = f"{function.__module__.rpartition('.')[2]}__{function.__name__}"
        if by is not None:
            self.reached[by].add(name)
        if name in self.reached:
            return name
        self.reached[name] = set()
        try:
            self.functions[name] = self._translate(function, name)
        except Untranslatable as error:
            self.failed[name] = str(error)
        return name

    def _translate(self, function: FunctionType, name: str) -> str:
        from pscript import JSError, py2js

        where = f"{function.__module__}.{function.__name__}"
        tree = ast.parse(dedent(inspect.getsource(function))).body[0]
        assert isinstance(tree, ast.FunctionDef)
        try:
            rewritten = Rewriter(function, tree, name, lambda one: self._reach(one, name), self.table).rewritten()
            script = py2js(ast.unparse(rewritten), inline_stdlib=False)
        except (JSError, NoLiteral, RuntimeError, Untranslatable) as error:
            raise Untranslatable(f"{where}: {error}") from error
        self.standard |= script.meta["std_functions"]
        self.methods |= script.meta["std_methods"]
        return str(script).strip()

    def table(self, name: str, value: Any) -> str:
        """A table or number of a module under a name; one that is there already under another keeps that."""
        kept = self._places.get(id(value)) if isinstance(value, tuple | list | dict) else None
        if kept is not None:
            return kept
        self.tables[name] = js_literal(value)
        self._places[id(value)] = name
        return name


def standard_library(translation: Translation) -> str:
    """Those functions of PScript's library that are used, with what these use."""
    from pscript import stdlib

    functions, methods = set(translation.standard), set(translation.methods)
    for text in [*map(stdlib.FUNCTIONS.__getitem__, translation.standard), *map(stdlib.METHODS.get, methods)]:
        _, more_functions, more_methods = stdlib.get_std_info(text)
        functions.update(more_functions)
        methods.update(more_methods)
    return str(stdlib.get_partial_std_lib(functions, methods))
