"""Plain values of Python as they are written in JavaScript."""

import json
from math import isinf, isnan
from typing import Any


class NoLiteral(Exception):
    """A value that has no plain form in JavaScript."""


def js_literal(value: Any) -> str:
    """Numbers, texts, truths, lists, tuples, sets, and dicts with texts as keys."""
    if value is None or isinstance(value, bool | str):
        return json.dumps(value, ensure_ascii=False).replace("</", "<\\/")
    if type(value) is int and abs(value) < 2**53:
        return str(value)
    if type(value) is float and not isnan(value):
        return ("Infinity" if value > 0 else "-Infinity") if isinf(value) else repr(value)
    if type(value) in (list, tuple):
        return "[" + ", ".join(map(js_literal, value)) + "]"
    if type(value) in (set, frozenset):
        return js_literal(sorted(value))
    if type(value) is dict and all(isinstance(key, str) for key in value):
        return "{" + ", ".join(f"{js_literal(key)}: {js_literal(one)}" for key, one in value.items()) + "}"
    raise NoLiteral(f"a value of the kind {type(value).__name__} has no form in JavaScript")
