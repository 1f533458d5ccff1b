"""How text is read by the search: the same here and in `site_theme/assets/search.js`.

Somebody types `nm`, `ohm` or `P0A0D-07` with what the keyboard in the bay offers; the manual has
N·m, Ω and hyphens of several kinds. Both sides are brought to one form. A test holds the two
implementations together, text by text.
"""

import re
import unicodedata
from collections import Counter
from functools import lru_cache

#: After decomposition and lower case: signs that are typed otherwise than they are printed.
_TYPED = {
    ord(sign): typed
    for sign, typed in {
        "ω": "ohm",  # the ohm sign and the capital omega both end here
        "μ": "u",  # the micro sign and the Greek letter both end here
        "ς": "σ",
        "ß": "ss",
        "æ": "ae",
        "œ": "oe",
        "ø": "o",
        "ł": "l",
        "đ": "d",
        "ð": "d",
        "þ": "th",
        "ı": "i",
        **{sign: "" for sign in "·⋅∙•\u00ad\u200b\u200c\u200d\u2060\ufeff"},
        **{dash: "-" for dash in "\u2010\u2011\u2012\u2013\u2014\u2015\u2212"},
        "\u2044": "/",
    }.items()
}
#: The signs that a manual has most of, first: replacing one is far cheaper than taking a run apart.
_COMMON = (("·", ""), ("°", " "), ("–", "-"), ("−", "-"), ("Ω", "ohm"), ("µ", "u"), ("≤", " "), ("≥", " "))
_BEYOND_ASCII = re.compile(r"[^\x00-\x7f]+")
_NEWTON_METRE = re.compile(r"(?<![a-z0-9])n\.m(?![a-z0-9])")
_JOINED = "-/."
_TOKEN = re.compile(r"[^\W_]+(?:[-/.][^\W_]+)*")
_NOT_ALNUM = re.compile(r"[\W_]+")
_PUNCTUATION = "".join(c for c in map(chr, range(128)) if not c.isalnum() and c not in _JOINED)
_TO_SPACE = str.maketrans(_PUNCTUATION, " " * len(_PUNCTUATION))
_DELETE = str.maketrans("", "", _PUNCTUATION + _JOINED)


def normal(text: str) -> str:
    """Lower case, without accents, with the signs of units as they are typed; other signs become spaces."""
    for sign, typed in _COMMON:
        text = text.replace(sign, typed)
    if not text.isascii():
        text = _BEYOND_ASCII.sub(lambda found: _typed(found[0]), text)
    plain = text.lower()
    return _NEWTON_METRE.sub("nm", plain) if "n.m" in plain else plain


@lru_cache(maxsize=4096)
def _typed(run: str) -> str:
    """A run of characters beyond ASCII: a text has few different ones, and taking them apart is slow."""
    decomposed = unicodedata.normalize("NFKD", run).lower()
    kept = "".join(c for c in decomposed if unicodedata.category(c) != "Mn").translate(_TYPED)
    return "".join(c if c.isascii() or c.isalnum() else " " for c in kept)


def tokens(plain: str) -> list[str]:
    """The words of a text in normal form; what is joined by `-`, `/` or `.` stays one word."""
    return _TOKEN.findall(plain)


def counts(plain: str) -> Counter[str]:
    """How often each word stands in a text in normal form; a joined word counts by its parts as well.

    Splitting at spaces is ten times faster than the expression; it is needed only for what holds a sign.
    """
    found = Counter(plain.translate(_TO_SPACE).split())
    for piece in [piece for piece in found if not piece.isalnum()]:
        times = found.pop(piece)
        for token in tokens(piece):
            found[token] += times
            for part in parts(token):
                found[part] += times
    return found


def parts(token: str) -> list[str]:
    """The parts of a joined word that are worth finding by themselves: those of two characters and more."""
    if token.isalnum():
        return []
    return [part for part in re.split(r"[-/.]", token) if len(part) > 1]


def squeezed(plain: str) -> str:
    """A code or number without the signs between: as somebody types it who does not know where they stand."""
    return plain.translate(_DELETE) if plain.isascii() else _NOT_ALNUM.sub("", plain)
