"""Plain data as YAML text, in the order and spelling of the format: what `bayleaf tidy` would leave as it is."""

import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ..loading.schema import FileKind
from ..loading.tidying.tidy import Tidied, tidied

Data = dict[str, Any]

#: As wide as a line of the author's files gets before its text is folded.
WIDTH = 120
#: Maps that are read at a glance and stand in one line.
_IN_ONE_LINE = frozenset({
    "people", "set", "when", "only_when", "tester_proved", "leaves", "expects", "voltage", "stored", "limits",
})  # fmt: skip
#: Signs that begin something else than a text.
_SPECIAL = "-?:,[]{}#&*!|>'\"%@`"


class Remark(str):
    """A remark of a file: as a key of a map or an entry of a list it becomes a line with `#`."""

    __slots__ = ()


def yaml_text(file: str, data: Data, kind: FileKind) -> str:
    """The text of a file. `data` holds texts, lists and maps; a remark is a key or an entry of its own."""
    text = "\n".join(_map(data, 0)) + "\n"
    found = tidied(file, text.encode(), kind)
    return found.after if isinstance(found, Tidied) else text


def _map(data: Mapping[str, Any], indent: int) -> Iterator[str]:
    before = " " * indent
    for key, value in data.items():
        if isinstance(key, Remark):
            yield from _remark(key, indent)
            continue
        if indent == 0 and key in ("steps", "conclusions"):
            yield ""
        name = f"{before}{_plain(str(key), inside=True)}:"
        if isinstance(value, Mapping):
            line = f"{name} {_flow(value)}"
            if (key in _IN_ONE_LINE or "taken_off_by" in value or not value) and len(line) <= WIDTH:
                yield line
            else:
                yield name
                yield from _map(value, indent + 2)
        elif isinstance(value, str):
            yield from _text(name, value, indent)
        else:
            yield from _list(name, value, indent, apart=indent == 0 and key == "steps")


def _list(name: str, value: Sequence[Any], indent: int, apart: bool) -> Iterator[str]:
    flat = all(isinstance(one, str) and not isinstance(one, Remark) for one in value)
    line = f"{name} {_flow(value)}"
    if flat and len(line) <= WIDTH and not any(" " in one and "," in one for one in value):
        yield line
        return
    yield name
    before = " " * (indent + 2)
    for number, one in enumerate(value):
        if apart and number:
            yield ""
        if isinstance(one, Remark):
            yield from _remark(one, indent + 2)
        elif isinstance(one, Mapping):
            first, *rest = _map(one, indent + 4)
            yield f"{before}- {first.strip()}"
            yield from rest
        else:
            yield f"{before}- {_plain(one) if isinstance(one, str) else _flow(one)}"


def _remark(text: str, indent: int) -> Iterator[str]:
    before = " " * indent + "# "
    yield from (f"{before}{line}" for line in textwrap.wrap(text, WIDTH - len(before)))


def _text(name: str, value: str, indent: int) -> Iterator[str]:
    line = f"{name} {_plain(value)}"
    if len(line) <= WIDTH:
        yield line
        return
    before = " " * (indent + 2)
    words = " ".join(value.split())
    yield f"{name} >-"
    yield from textwrap.wrap(words, WIDTH, initial_indent=before, subsequent_indent=before, break_on_hyphens=False)


def _flow(value: Any) -> str:
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_plain(str(key), inside=True)}: {_flow(one)}" for key, one in value.items()) + "}"
    if isinstance(value, str):
        return _plain(value, inside=True)
    return "[" + ", ".join(map(_flow, value)) + "]"


def _plain(text: str, inside: bool = False) -> str:
    """A text as it stands in a file: in double quotes where it would be read as something else."""
    needs = (
        not text.strip()
        or text != " ".join(text.split())
        or text[0] in _SPECIAL
        or text.endswith(":")
        or re.search(r":\s|\s#|\s-\s|[\[\]{}]", text) is not None
        or text in ("~", "null")
        or (inside and "," in text)
    )
    if not needs:
        return text
    escaped = " ".join(text.split()).replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
