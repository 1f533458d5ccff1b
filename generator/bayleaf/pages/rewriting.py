"""A function of Python, rewritten so that its translation to JavaScript means the same.

Division by zero, powers, remainders and texts of numbers go to functions of `site_theme/assets/python.js`. Names of
modules are put before names, so that two modules may use the same one. What has no translation is refused.
"""

import ast
import builtins
import inspect
import math
import re
from collections.abc import Callable, Mapping
from types import FunctionType, ModuleType
from typing import Any

#: The name in JavaScript of a function that is reached, and that of a table or number of a module.
Reach = Callable[[Callable[..., Any]], str]
Table = Callable[[str, Any], str]

#: The functions of `math` that `python.js` has.
MATH = frozenset(
    ("acos", "asin", "atan", "atan2", "ceil", "cos", "degrees", "exp", "fabs", "floor", "hypot", "isfinite", "isinf")
    + ("isnan", "log", "log10", "log2", "pow", "radians", "sin", "sqrt", "tan", "trunc")
)  # fmt: skip
#: Functions of Python itself: those that `python.js` has, and those that PScript translates rightly.
OURS = frozenset(("float", "int", "len", "max", "min", "round", "str", "sum"))
THEIRS = frozenset(
    ("ValueError", "abs", "all", "any", "bool", "dict", "enumerate", "isinstance", "list", "range", "reversed")
    + ("sorted", "tuple", "zip")
)  # fmt: skip
_OPERATORS = {ast.Div: "py_div", ast.FloorDiv: "py_floordiv", ast.Mod: "py_mod", ast.Pow: "py_pow"}
#: Types stand behind `isinstance` as they are.
_TYPES = frozenset(("bool", "dict", "float", "int", "list", "str", "tuple"))
_SPEC = re.compile(r"(\.\d+)?[gfed%]?")
#: Words that cannot be names in JavaScript, but in Python.
_RESERVED = frozenset(
    [
        "arguments",
        "case",
        "catch",
        "const",
        "debugger",
        "default",
        "delete",
        "do",
        "enum",
        "eval",
        "export",
        "extends",
        "function",
        "implements",
        "instanceof",
        "interface",
        "let",
        "new",
        "null",
        "package",
        "private",
        "protected",
        "public",
        "static",
        "super",
        "switch",
        "this",
        "throw",
        "typeof",
        "undefined",
        "var",
        "void",
    ]
)


class Untranslatable(Exception):
    """A function that cannot be translated; the text says which, and what is in the way."""


class Rewriter(ast.NodeTransformer):
    """One function, rewritten so that its translation means the same."""

    def __init__(self, function: FunctionType, tree: ast.FunctionDef, name: str, reach: Reach, table: Table) -> None:
        self._tree, self._name, self._reach, self._table = tree, name, reach, table
        self._globals: Mapping[str, Any] = function.__globals__
        self._module = function.__module__.rpartition(".")[2]
        self._own = {one.arg for one in ast.walk(tree) if isinstance(one, ast.arg)}
        self._own |= {one.id for one in ast.walk(tree) if isinstance(one, ast.Name) and isinstance(one.ctx, ast.Store)}

    def rewritten(self) -> ast.FunctionDef:
        """The function without docstring, decorators and annotations, its names replaced."""
        tree = self._tree
        if ast.get_docstring(tree) is not None:
            tree.body = tree.body[1:] or [ast.Pass()]
        tree.name, tree.decorator_list, tree.returns = self._name, [], None
        self.generic_visit(tree)
        return ast.fix_missing_locations(tree)

    # ---- names ----------------------------------------------------------------------------------------

    def visit_arg(self, node: ast.arg) -> ast.arg:
        return ast.arg(_safe(node.arg), None)

    def visit_Name(self, node: ast.Name) -> ast.expr:
        if node.id in self._own:
            return ast.Name(_safe(node.id), node.ctx)
        if node.id in self._globals:
            return self._named(node.id, self._globals[node.id])
        if node.id in OURS:
            return ast.Name(f"py_{node.id}", node.ctx)
        if node.id in THEIRS:
            return node
        raise Untranslatable(f"`{node.id}` has no translation" if hasattr(builtins, node.id) else f"no `{node.id}`")

    def visit_Attribute(self, node: ast.Attribute) -> ast.expr:
        if isinstance(node.value, ast.Name) and node.value.id not in self._own:
            module = self._globals.get(node.value.id)
            if isinstance(module, ModuleType):
                return self._named(node.attr, getattr(module, node.attr))
        return self.generic_visit(node)  # type: ignore[return-value]

    def _named(self, name: str, value: Any) -> ast.expr:
        if getattr(value, "__module__", None) == "math":
            if value.__name__ not in MATH or getattr(math, value.__name__) is not value:
                raise Untranslatable(f"`math.{value.__name__}` has no translation")
            return ast.Name(f"math_{value.__name__}", ast.Load())
        if callable(value):
            return ast.Name(self._reach(value), ast.Load())
        return ast.Name(self._table(f"{self._module}__{name}", value), ast.Load())

    # ---- what means something else --------------------------------------------------------------------

    def visit_BinOp(self, node: ast.BinOp) -> ast.expr:
        self.generic_visit(node)
        name = _OPERATORS.get(type(node.op))
        return node if name is None else _call(name, node.left, node.right)

    def visit_AugAssign(self, node: ast.AugAssign) -> ast.stmt:
        self.generic_visit(node)
        name = _OPERATORS.get(type(node.op))
        if name is None:
            return node
        if not isinstance(node.target, ast.Name):
            raise Untranslatable(f"`{ast.unparse(node)}` changes a part in place")
        return ast.Assign([node.target], _call(name, ast.Name(node.target.id, ast.Load()), node.value))

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.stmt:
        if node.value is None:
            return ast.Pass()
        return ast.Assign([self.visit(node.target)], self.visit(node.value))

    def visit_GeneratorExp(self, node: ast.GeneratorExp) -> ast.expr:
        self.generic_visit(node)
        return ast.ListComp(node.elt, node.generators)

    def visit_JoinedStr(self, node: ast.JoinedStr) -> ast.expr:
        return _call("py_join", *(self._part(one) for one in node.values))

    def _part(self, part: ast.expr) -> ast.expr:
        if not isinstance(part, ast.FormattedValue):
            return part
        spec = ""
        if part.format_spec is not None:
            pieces = part.format_spec.values if isinstance(part.format_spec, ast.JoinedStr) else []
            if not all(isinstance(one, ast.Constant) for one in pieces):
                raise Untranslatable("a text whose form is computed")
            spec = "".join(str(one.value) for one in pieces if isinstance(one, ast.Constant))
        if part.conversion not in (-1, ord("s")) or not _SPEC.fullmatch(spec):
            raise Untranslatable(f"the form `{spec}` of a text has no translation")
        return _call("py_format", self.visit(part.value), ast.Constant(spec))

    def visit_Call(self, node: ast.Call) -> ast.expr:
        callee = self._globals.get(node.func.id) if isinstance(node.func, ast.Name) else None
        if isinstance(node.func, ast.Name) and node.func.id == "isinstance" and "isinstance" not in self._own:
            return ast.Call(node.func, [self.visit(node.args[0]), *map(_type_name, node.args[1:])], [])
        if isinstance(node.func, ast.Name) and node.func.id == "zip":
            node = ast.Call(node.func, node.args, [])  # whether both are as long is checked by the formula
        if node.keywords and isinstance(callee, FunctionType) and callee.__name__ not in self._own:
            node = _positional(node, callee)
        elif node.keywords and not (isinstance(node.func, ast.Name) and node.func.id == "sorted"):
            raise Untranslatable(f"`{ast.unparse(node)}` names what it gives")
        return self.generic_visit(node)  # type: ignore[return-value]


def _call(name: str, *given: ast.expr) -> ast.Call:
    return ast.Call(ast.Name(name, ast.Load()), list(given), [])


def _safe(name: str) -> str:
    return f"{name}_" if name in _RESERVED else name


def _type_name(node: ast.expr) -> ast.expr:
    """A type, or several in a tuple or joined by `|`, behind `isinstance`."""
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.BitOr):
        left, right = _type_name(node.left), _type_name(node.right)
        parts = [*(left.elts if isinstance(left, ast.Tuple) else [left])]
        return ast.Tuple([*parts, *(right.elts if isinstance(right, ast.Tuple) else [right])], ast.Load())
    if isinstance(node, ast.Tuple):
        return ast.Tuple([_type_name(one) for one in node.elts], ast.Load())
    if not isinstance(node, ast.Name) or node.id not in _TYPES:
        raise Untranslatable(f"`isinstance` of `{ast.unparse(node)}`")
    return node


def _positional(node: ast.Call, callee: FunctionType) -> ast.Call:
    """A call with what is given by name put in its place; what is left out between is `undefined`."""
    parameters = inspect.signature(callee).parameters
    if any(one.kind is one.VAR_KEYWORD for one in parameters.values()):
        return node  # PScript hands these over by name
    names = list(parameters)
    named = {one.arg: one.value for one in node.keywords}
    if not set(named) <= set(names):
        raise Untranslatable(f"`{ast.unparse(node)}` unpacks a dict")
    last = max(names.index(name) for name in named if name is not None)
    rest = [named.get(name) or _default(parameters[name], node) for name in names[len(node.args) : last + 1]]
    return ast.Call(node.func, [*node.args, *rest], [])


def _default(parameter: inspect.Parameter, node: ast.Call) -> ast.expr:
    if not isinstance(parameter.default, int | float | str | bool | None):
        raise Untranslatable(f"`{ast.unparse(node)}` leaves out `{parameter.name}`")
    return ast.Constant(parameter.default)
