"""Characters that cannot be seen, or look like a space and are none: found before anything is read."""

import re
import unicodedata
from itertools import islice

from ..schema import every_key
from .draft import NOTHING, Draft
from .slip import MAX_SLIPS, Slip, shown

#: Control characters; soft hyphen; zero-width space, joiners and marks; line and paragraph separators;
#: direction marks; word joiner and invisible operators; byte order mark; stand-ins and other noncharacters.
#: Names and properties: Unicode Character Database. An emoji's variation selector (U+FE0F) is left alone.
_INVISIBLE = (
    "\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\xad\u061c\u180e\u200b-\u200f\u2028-\u202e"
    "\u2060-\u206f\ufdd0-\ufdef\ufeff\ufffe\uffff"
)
INVISIBLE = re.compile(f"[{_INVISIBLE}]+")
#: Spaces that do not indent: no-break, the typographer's widths, the ideographic space.
OTHER_SPACES = "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000"
_OTHER_INDENT = re.compile(f"^([ \t]*(?:- +)*-?)([{OTHER_SPACES}][{OTHER_SPACES} \t]*)(?=[^\r\n])", re.MULTILINE)

#: One search for all of them: a set of characters is looked for at a few nanoseconds a character.
_ANY = re.compile(f"[{_INVISIBLE}{OTHER_SPACES}]")

_REMARK = re.compile("[ \t]+#.*")
#: Dashes that a word processor makes of a hyphen; a list knows the hyphen alone. Only before what is surely a key.
_LONG_DASH = re.compile("^ *([–—−\u2010\u2011])(?= +([a-z_]+):[ \r\n])", re.MULTILINE)

_NAMES = {"\ufeff": "byte order mark", "\x7f": "control character"}


def unseen(draft: Draft) -> tuple[list[Slip], Draft]:
    """The slips, and the draft without them: an invisible character is part of no value."""
    slips: list[Slip] = []
    text = draft.text
    dashes = [match for match in _LONG_DASH.finditer(text) if match[2] in every_key()]
    if not dashes and not _ANY.search(text):
        return slips, draft
    for match in dashes:
        slips.append(_long_dash(draft, match))
        text = text[: match.start(1)] + "-" + text[match.end(1) :]
    if INVISIBLE.search(text):
        slips.extend(_invisible(draft, match) for match in islice(INVISIBLE.finditer(text), MAX_SLIPS))
        text = INVISIBLE.sub(lambda match: NOTHING * len(match.group()), text)
    indents = list(_OTHER_INDENT.finditer(text))
    if indents:
        slips.extend(_other_indent(draft, match) for match in indents[:MAX_SLIPS])
        text = _OTHER_INDENT.sub(lambda match: match[1] + " " * len(match[2]), text)
    return slips, Draft(text, mended=True) if slips else draft


def character_name(character: str) -> str:
    """What a character is called, with its number: "zero width space (U+200B)"."""
    name = _NAMES.get(character) or unicodedata.name(character, "control character").lower()
    if "\ufdd0" <= character <= "\ufdef" or character in "\ufffe\uffff":
        name = "character without a meaning"
    return f"{name} (U+{ord(character):04X})"


def _article(name: str) -> str:
    return "an" if name[0] in "aeiou" else "a"


def _invisible(draft: Draft, match: re.Match[str]) -> Slip:
    start, end = match.span()
    name = character_name(match.group()[0])
    one = f"{_article(name)} {name}"
    many = f"{end - start} invisible characters, the first {one}, stand" if end - start > 1 else f"{one} stands"
    line_start, line_end = draft.line(start)
    clean = " ".join(INVISIBLE.sub("", draft.text[line_start:line_end]).split())
    return Slip(
        "invisible-character",
        start,
        end,
        f"{many} here and cannot be seen",
        "it came along when text was copied; two names that look alike would differ by it",
        f"delete it, or type the line anew: `{clean[:80]}`" if clean else "delete it",
        write=((start, end, ""),) if all(unicodedata.category(sign) == "Cf" for sign in match.group()) else (),
    )


def _long_dash(draft: Draft, match: re.Match[str]) -> Slip:
    start, end = match.span(1)
    line_end = draft.line(start)[1]
    line_end = start + len(_REMARK.sub("", draft.text[start:line_end]))
    return Slip(
        "long-dash-before-entry",
        start,
        end,
        f"the entry `{shown(draft, end, line_end)}` begins with the long dash `{match[1]}`",
        "word processors lengthen dashes; an entry of a list begins with the short one of the keyboard",
        f"write `- {shown(draft, end, line_end)}`",
        write=((start, end, "-"),),
    )


def _other_indent(draft: Draft, match: re.Match[str]) -> Slip:
    start, end = match.span(2)
    line_end = draft.line(start)[1]
    name = character_name(match[2][0])
    return Slip(
        "no-break-space-as-indent",
        start,
        end,
        f"this line is indented with {_article(name)} {name} instead of an ordinary space",
        "it looks like a space but does not indent, so the line would belong to something else",
        f"delete the space before `{shown(draft, end, line_end)}` and type ordinary spaces",
        write=() if "\t" in match[2] else ((start, end, " " * (end - start)),),
    )
