"""Names, dates, years and amounts in another form than the one asked for: what was meant by them.

Only what can be meant in one way is turned round: 30.09.2026 has the day first wherever points are written,
9/10/2026 has not, so it stays.
"""

import re
from collections.abc import Callable, Iterator

_NUMBERS = dict(one="1", two="2", three="3", four="4", five="5", six="6", seven="7", eight="8", nine="9", ten="10")
_AMOUNT = r"([0-9]+)(?:[.,]([0-9]{2}))?"
_CURRENCY = r"(€|\$|£|[A-Za-z]{3})"
_SYMBOLS = {"€": "EUR", "$": "USD", "£": "GBP"}

_FORMS: tuple[tuple[str, Callable[[re.Match[str]], str]], ...] = (
    (r"([0-9]{1,2})\. ?([0-9]{1,2})\. ?([0-9]{4})(.*)", lambda m: f"{m[3]}-{m[2]:0>2}-{m[1]:0>2}{m[4]}"),
    (r"([0-9]{4})[-/.]([0-9]{1,2})[-/.]([0-9]{1,2})(.*)", lambda m: f"{m[1]}-{m[2]:0>2}-{m[3]:0>2}{m[4]}"),
    (r"([0-9]{4})\s*(?:-|–|/|until|till)\s*([0-9]{4})", lambda m: f"{m[1]} to {m[2]}"),
    (r"(?:from |since )?([0-9]{4})\s*(?:-|–|on|onwards|\+)?", lambda m: f"{m[1]} to today"),
    (rf"{_CURRENCY}\s*{_AMOUNT}", lambda m: _amount(m[2], m[3], m[1])),
    (rf"{_AMOUNT}\s*{_CURRENCY}", lambda m: _amount(m[1], m[2], m[3])),
    (
        r"[±(\s]*([0-9]+(?:[.,][0-9]+)?)\s*%(?:\s*\+\s*([0-9]+)\s*[A-Za-z]+)?\)?",
        lambda m: f"{m[1].replace(',', '.')} %" + (f" + {m[2]} digits" if m[2] else ""),
    ),
    (r"(?:max(?:imum|\.)?|up to)?\s*([1-9][0-9]*)\s*(?:x|times)?", lambda m: f"at most {m[1]}"),
)
_PATTERNS = tuple((re.compile(pattern, re.IGNORECASE), write) for pattern, write in _FORMS)


def in_form(text: str, pattern: str) -> str | None:
    """The same in the form that a pattern asks for, or None where that cannot be told."""
    return next((form for form in _candidates(text.strip()) if re.search(pattern, form)), None)


def _candidates(text: str) -> Iterator[str]:
    for pattern, write in _PATTERNS:
        match = pattern.fullmatch(text)
        if match is not None:
            yield write(match)
    yield _NUMBERS.get(text.casefold(), "")
    hyphened = re.sub(r"[\s_.]+", "-", text)
    yield from (hyphened, hyphened.lower())


def _amount(whole: str, cents: str | None, currency: str) -> str:
    return f"{whole}.{cents or '00'} {_SYMBOLS.get(currency, currency.upper())}"
