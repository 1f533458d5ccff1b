"""Questions on the console: numbered lists, one line for an answer, and an option for each of them.

Nothing but lines is read and printed, so that it works piped, on every console and with a screen reader.
"""

import codecs
import io
import sys
from collections.abc import Callable, Mapping

import click

from ..drafts.asked import as_said
from ..drafts.choosing import chosen
from .common import WrongCall, say

#: What stands for nothing at all, as an option and as an answer.
NOTHING = "none"
#: UTF-8 with a byte order mark or without, and UTF-16 with one.
_OF_FILES = ("utf-8-sig", "utf-16")


def ask(question: str, option: str, default: str | None = None, somebody: bool = False) -> str:
    """One line. Where nobody answers it is the default, or a wrong call that names the option that is lacking.

    `somebody`: the default counts only where somebody has chosen it.
    """
    _read_as_files_are()
    try:
        answer = click.prompt(question, default=default, show_default=bool(default))
    except click.Abort:
        if sys.stdin.isatty():
            raise
        if default is not None and not somebody:
            say("")
            return default
        say("")
        raise WrongCall(f"nobody answers here, so say it with {option}") from None
    except UnicodeDecodeError:
        say("")
        raise WrongCall(
            "the answers are not UTF-8, so ° or ü could become another sign. Save them as UTF-8; for `echo` in a "
            "window of Windows type `chcp 65001` first"
        ) from None
    return as_said(str(answer))


def _read_as_files_are() -> None:
    """Answers from a pipe or a file are read like the files of a manual, before the first of them is.

    Windows would take UTF-8 for its own code page, and other signs would stand in the draft without a word.
    """
    piped = sys.stdin
    if not isinstance(piped, io.TextIOWrapper) or piped.isatty() or piped.encoding in _OF_FILES:
        return
    if isinstance(piped.buffer, io.BufferedReader):
        of_two_bytes = piped.buffer.peek(2)[:2] in (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
        piped.reconfigure(encoding=_OF_FILES[of_two_bytes], errors="strict", newline=None)


def ask_until(question: str, option: str, check: Callable[[str], str | None], default: str | None = None) -> str:
    """Asks until nothing is said against the answer."""
    while True:
        answer = ask(question, option, default)
        against = check(answer)
        if against is None:
            return answer
        say(against)


def choose(
    what: str, option: str, offered: Mapping[str, str], given: tuple[str, ...] = (), many: bool = False,
    default: str | None = None, somebody: bool = False,
) -> tuple[str, ...]:  # fmt: skip
    """One of what is offered, or with `many` any number of it; asked for only where the option does not say it.

    `somebody`: none at all is an answer only where somebody gives it.
    """
    if given:
        words = ", ".join(given)
        if many and words.casefold() == NOTHING:
            return ()
        names, against = _found(words, offered, many)
        if against is not None:
            raise WrongCall(f"{option}: {against}")
        return names
    say(f"\n{what}")
    width = max(map(len, offered), default=0)
    for number, (name, title) in enumerate(offered.items(), 1):
        say(f"  {number:>2}  {name:<{width}}  {title}".rstrip())
    how = "Numbers or names, with commas between (empty for none)" if many else "Number or name"
    while True:
        answer = ask(how, option, "" if many else default, somebody)
        if many and answer.casefold() in ("", NOTHING):
            return ()
        names, against = _found(answer, offered, many)
        if against is None:
            return names
        say(against)


def _found(answer: str, offered: Mapping[str, str], many: bool) -> tuple[tuple[str, ...], str | None]:
    """What an answer chooses, or what is said against it."""
    found = chosen(answer, offered)
    if found.unknown is not None:
        hint = f" Did you mean {found.meant}?" if found.meant else ""
        if not found.meant and len(offered) <= 12:
            hint = f" There are {', '.join(offered)}."
        return (), f"there is no {found.unknown}.{hint}"
    if not found.names:
        return (), "choose one of these"
    if not many and len(found.names) > 1:
        return (), "choose one only"
    return found.names, None
