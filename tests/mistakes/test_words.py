"""No report of the collection speaks the language of programmers."""

import re

from mistakes.reading import all_mistakes

#: Words that mean nothing in the bay, or something else.
JARGON = (
    "mapping", "scalar", "null", "string", "regex", "regexp", "schema", "token", "parse", "parser", "parsed", "parsing",
    "key error", "node", "object", "boolean", "bool", "integer", "int", "float", "array", "exception", "none type",
    "traceback", "yaml", "json", "unicode error", "codec", "syntax", "dict", "tuple", "instance", "iterable", "anchor",
    "expected <", "character set", "enum", "property", "undefined", "valid under", "escape character",
)  # fmt: skip
_JARGON = re.compile(r"\b(" + "|".join(JARGON) + r")\b", re.IGNORECASE)
_QUOTED = re.compile(r"`[^`]*`|\"[^\"]*\"|“[^”]*”")


def spoken(report: str) -> str:
    """The sentences of a report: without the author's lines, what is quoted, and the names of rules."""
    lines = [line for line in report.splitlines() if line.startswith("  ") and not re.match(r" {4}(?! {7}\S)", line)]
    return _QUOTED.sub("…", " ".join(line.strip() for line in lines if not line.startswith("  rule:")))


def test_no_jargon() -> None:
    """What is said is said in words of the trade and of writing: keys, texts, lists, lines, remarks."""
    found = {mistake.name: _JARGON.findall(spoken(mistake.report)) for mistake in all_mistakes()}

    assert {} == {name: words for name, words in found.items() if words}


def test_jargon_would_be_found() -> None:
    """A report that had it would not pass; what the author wrote himself may hold it."""
    report = (
        "a.yml:1:1  error, form\n  this string is no `token`\n\n    1  a null\n       ^\n\n  help:    write a mapping\n"
    )

    assert ["string", "mapping"] == _JARGON.findall(spoken(report))
