"""Regular expressions for the schema, so that an editor warns while a value is being typed.

They are looser than the parsers and never stricter: whatever a parser accepts, its pattern
accepts. Only explicit classes, no look-around: Python, Rust and JavaScript then agree on them.
"""

from typing import Literal

_INNER = "[ \\t\u00a0\u2007\u2009\u202f]"
_OUTER = "[ \\t\\r\\n\u00a0\u2007\u2009\u202f]"
_SIGN = "[-+\u2212\u2013]?"
_NUMBER = f"{_SIGN}{_INNER}*[0-9][0-9.,/\u2044 \\t\u00a0\u2007\u2009\u202f]*"
#: The first character of a unit: a letter, or one of the signs that units begin with.
_UNIT = '[A-Za-z\u00b0\u00ba\u02da\u00b5\u03bc\u03a9\u2126\u0394\u2206\u2103\u2109%"\u2033\u201d\u201c]'
_VALUE = f"{_NUMBER}{_UNIT}"
_ANY = "[^\\r\\n]*"
_AT = f"[Aa][Tt]{_INNER}+([Ll][Ee][Aa][Ss][Tt]|[Mm][Oo][Ss][Tt]){_INNER}+{_VALUE}"
_BETWEEN = f"({_INNER}[Tt][Oo]{_INNER}|\u00b1|[-+\u2212\u2013])"

_PATTERNS = {
    # a number, then something that can begin a unit
    "quantity": f"^{_OUTER}*{_VALUE}",
    # a word and a value, or two numbers with a word or sign between them and a unit at the end
    "limit": f"^{_OUTER}*({_AT}|{_SIGN}{_INNER}*[0-9]{_ANY}{_BETWEEN}{_ANY}[0-9]{_ANY}{_UNIT})",
}


def schema_pattern(kind: Literal["quantity", "limit"] = "quantity") -> str:
    """The pattern that every text of this kind matches; it is open at its end."""
    return _PATTERNS[kind]
