"""What of a Markdown text is prose: code, remarks and what stands before the text are blanked out.

It follows Python-Markdown, which makes the pages: four spaces deeper than the list item or the block above them is
content of it, and only what is four spaces deeper again is code. A test holds the two against each other.
"""

import re
from collections.abc import Iterator

#: What stands in the place of code: no space, so that nothing beside code seems to be alone on its line.
CODE = "\0"

_FRONT = re.compile(r"-{3}[ \t]*\r?\n.*?\n(?:-{3}|\.{3})[ \t]*(?:\r?\n|$)", re.DOTALL)
_FENCE = re.compile(r"[ \t>]*(?:(?:[-*+]|\d+[.)])[ \t]+)?(`{3,}(?=[^`]*$)|~{3,})")
#: What takes lines that are four spaces deeper into itself: items of lists, notes, tabs, footnotes, definitions.
_HOLDS = re.compile(r"[-*+][ \t]|\d+[.)][ \t]|!!!|\?\?\?|===|\[\^[^\]]+\]:|:[ \t]")
_DEEPER = 4
#: A line that ends the paragraph above it.
_NEXT_BLOCK = r"\n(?=[ \t]*(?:\r?\n|[-*+][ \t]|\d+[.)][ \t]|\#|\||>))"
_UNREAD = re.compile(
    rf"<!--.*?-->|<(pre|script|style|code|textarea)\b.*?</\1\s*>|(?<![\\`])(`+)(?!`)(?:(?!{_NEXT_BLOCK}).)+?(?<!`)\2(?!`)",
    re.DOTALL | re.IGNORECASE,
)


def prose(text: str) -> str:
    """The text with everything that is no prose blanked out; as long as before, with the same line breaks."""
    front = _FRONT.match(text)
    done = front.end() if front else 0
    whole = _blank(text[:done], CODE) + "".join(_without_blocks(text[done:]))
    return _UNREAD.sub(lambda found: _blank(found[0], " " if found[0].startswith("<!--") else CODE), whole)


def _blank(text: str, sign: str) -> str:
    return re.sub(r"[^\r\n]", sign, text)


def _without_blocks(text: str) -> Iterator[str]:
    """The lines, those of fenced and of indented code blanked out."""
    fence = ""
    within: list[int] = []  # how deep the content of each open item or note stands
    after_gap = True
    for line in text.splitlines(keepends=True):
        bare, depth = line.strip(), _depth(line)
        if bare and not fence:
            while within and depth < within[-1]:
                within.pop()
        opened = _FENCE.match(line.rstrip()) if not fence else None
        if fence or opened:
            yield _blank(line, CODE)
            if opened:
                fence = opened[1]
            elif _closes(bare, fence):
                fence = ""
            after_gap = False
            continue
        if not bare:
            yield line
            after_gap = True
            continue
        base = within[-1] if within else 0
        if after_gap and depth - base >= _DEEPER:
            yield _blank(line, CODE)
            continue
        yield line
        if _HOLDS.match(bare):
            within.append(base + _DEEPER)
        after_gap = bare.startswith("#")


def _closes(bare: str, fence: str) -> bool:
    inner = bare.lstrip("> \t")
    return len(inner) >= len(fence) and set(inner) == {fence[0]}


def _depth(line: str) -> int:
    wide = line.expandtabs(_DEEPER)
    return len(wide) - len(wide.lstrip())
