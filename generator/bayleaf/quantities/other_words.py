"""Other words and signs for a limit: understood, but not accepted, so that every page says it alike."""

import re

_VALUE = r"(?P<value>[^0-9]?[0-9].*)"
_AT_LEAST = r"(?:>=?|≥|(?:more|greater|higher|no less|not less) than|over|above|not below|min(?:imum)?\b\.?)"
_AT_MOST = r"(?:<=?|≤|(?:less|lower|no more|not more) than|under|below|up to|not above|not over|max(?:imum)?\b\.?)"
_ABOUT = r"(?:about|around|approx(?:imately|\.)?|ca\.?|circa|~|≈)"
_DASH = r"(?:\s*(?:\.\.+|…|[–—])\s*|\s-\s|(?<=[0-9])-)"

_WRITE = {
    rf"{_AT_LEAST}\s*(?:of\s+)?{_VALUE}": "at least {value}",
    rf"{_AT_MOST}\s*(?:of\s+)?{_VALUE}": "at most {value}",
    rf"{_VALUE}\s+(?:(?:or|and) (?:more|above|higher|up)|min(?:imum|\.)?)": "at least {value}",
    rf"{_VALUE}\s+(?:(?:or|and) (?:less|below|lower|down)|max(?:imum|\.)?)": "at most {value}",
    r"(?:between|from)\s+(?P<value>.+?)\s+(?:and|up to|to)\s+(?P<other>.+)": "{value} to {other}",
    r"at least\s+(?P<value>.+?),?\s+(?:and |but )?at most\s+(?P<other>.+)": "{value} to {other}",
    rf"(?!.*\sto\s)(?P<value>[^±+]*?[^\s±+.…]){_DASH}(?P<other>[0-9][^±+]*)": "{value} to {other}",
    r"\((?P<value>[^±]+?)\s*±\s*(?P<other>[^)]+?)\)\s*(?P<unit>\S.*)": "{value} {unit} ± {other} {unit}",
}
_PATTERNS = tuple((re.compile(pattern, re.IGNORECASE), words) for pattern, words in _WRITE.items())
_VAGUE = re.compile(rf"{_ABOUT}\s*{_VALUE}", re.IGNORECASE)


def mend_of(text: str) -> str | None:
    """What to write instead of a limit said in other words, or None where it is nothing of the kind."""
    for pattern, words in _PATTERNS:
        if said := pattern.fullmatch(text):
            return f"write `{words.format(**said.groupdict())}`"
    if said := _VAGUE.fullmatch(text):
        return f"write how far it may be off, such as `{said['value']} ± 10 %`"
    return None
