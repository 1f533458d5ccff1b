"""A tidied file says what it said, keeps every remark, and is tidied no further."""

import re
from collections import Counter
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from bayleaf.loading.load import load
from bayleaf.loading.schema import FileKind
from bayleaf.loading.tidying.tidy import LeftAlone, Tidied, tidied
from bayleaf.manual_files import find_files
from bayleaf.quantities.spelling import spelled
from hypothesis import given, settings
from hypothesis import strategies as st
from kit import PLACES, PROCEDURE, VEHICLE
from ruamel.yaml import YAML
from thinned import IS_CAMPAIGN

#: A manual that was written by hand and never tidied.
BASE = Path(__file__).resolve().parents[1] / "mistakes/base"
FILES = [(file.path, file.kind) for file in find_files(BASE).files if file.kind != "page"]


def tidy(text: str, kind: FileKind = "procedure") -> str:
    """The text of a file, tidied."""
    found = tidied(PLACES[kind], text.encode(), kind)
    assert isinstance(found, Tidied), found
    return found.after


def step(text: str) -> str:
    """A procedure whose steps begin with these lines, tidied; and these lines of it."""
    head, _, _ = PROCEDURE.partition("steps:\n")
    return tidy(f"{head}steps:\n{text}").partition("steps:\n")[2]


@pytest.mark.parametrize(("file", "kind"), FILES)
def test_every_file_of_a_manual_can_be_tidied(file: str, kind: FileKind) -> None:
    """None is left alone, and the second time nothing is left to do. The demo is tidy: `tests/test_demo.py`."""
    once = tidied(file, (BASE / file).read_bytes(), kind)

    assert isinstance(once, Tidied)
    assert Tidied(once.after, once.after, True) == tidied(file, once.after.encode(), kind)


@pytest.mark.parametrize(("file", "kind"), FILES)
def test_another_reader_finds_the_same_values_and_remarks(file: str, kind: FileKind) -> None:
    """Held against ruamel.yaml, which keeps remarks and knows nothing of ours; values but for their spelling."""
    numbers = count()
    plain = (BASE / file).read_text("utf-8")
    text = re.sub(r"(?m)^( *)(?=(?:- )?\w+:)", lambda found: f"{found[1]}# remark {next(numbers)}\n{found[1]}", plain)
    once = tidied(file, text.encode(), kind)

    assert isinstance(once, Tidied)
    assert values(YAML().compose(text)) == values(YAML().compose(once.after))
    assert remarks(text) == remarks(once.after) == Counter(f"# remark {number}" for number in range(next(numbers)))


def values(node: Any) -> Any:
    """What ruamel.yaml reads, keys in any order."""
    if isinstance(node.value, str):
        return spelled(" ".join(node.value.split()))
    if node.id == "sequence":
        return [values(one) for one in node.value]
    return {key.value: values(one) for key, one in node.value}


def remarks(text: str) -> Counter[str]:
    """The remarks that ruamel.yaml hangs on what stands beside them."""

    def lines(hung: Any) -> Iterator[str]:
        if isinstance(hung, list | tuple):
            for one in hung:
                yield from lines(one)
        elif hung is not None:
            yield from filter(None, map(str.strip, hung.value.split("\n")))

    return Counter(line for token in YAML().scan(text) for line in lines(getattr(token, "_comment", None)))


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("- do: a\n  id: b\n", "  - id: b\n    do: a\n"),
        ("  - time: 2min\n    do: a\n", "  - do: a\n    time: 2 min\n"),
        ('  - do: "Park it"\n', "  - do: Park it\n"),
        ("  - do: 'Park: now'\n", "  - do: 'Park: now'\n"),
        ("  - do: 'no'\n", "  - do: 'no'\n"),
        ("  - do: '1.10'\n", "  - do: '1.10'\n"),
        ("  - do: 'Padlock #3'\n", "  - do: 'Padlock #3'\n"),
        ("  -   do:   a\n      on:    nothing  # why\n", "  - do: a\n    on: nothing  # why\n"),
        ("  - on: nothing\n    # of the work\n    do: a\n", "  # of the work\n  - do: a\n    on: nothing\n"),
        ("  - # first\n    do: a\n\n\n\n  - do: b\n", "  # first\n  - do: a\n\n  - do: b\n"),
        ("  - do: |\n        a\n          b\n    id: c\n", "  - id: c\n    do: |\n        a\n          b\n"),
        ("  - do: a\n    # - do: b\n  - do: c\n", "  - do: a\n    # - do: b\n  - do: c\n"),
        ("  - do: a\n    # about these\n    when: {open: [p],mode: off}\n",
         "  - do: a\n    # about these\n    when: {mode: off, open: [p]}\n"),
    ],
)  # fmt: skip
def test_steps(before: str, after: str) -> None:
    """Order, indent, quotes and blanks; remarks go with what they stand above, or beside."""
    assert after == step(before)


def test_line_breaks_and_encoding() -> None:
    """What is saved is UTF-8 with the line breaks of every system."""
    data = PROCEDURE.replace("\n", "\r\n").encode("utf-16")

    found = tidied(PLACES["procedure"], data, "procedure")

    assert isinstance(found, Tidied) and not found.is_tidy
    assert "\r" not in found.after and not found.after.startswith("\ufeff")


@pytest.mark.parametrize("damage", ["\tdo: a\n", "  - do: a: b\n", "  - do: Lock #3\n", "  - {do: a, b}\n", "}\n"])
def test_what_cannot_be_read_for_certain_is_left_alone(damage: str) -> None:
    """The reason names the line."""
    found = tidied(PLACES["procedure"], (PROCEDURE + damage).encode(), "procedure")

    assert isinstance(found, LeftAlone)
    assert found.reason.startswith("line ")


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("5Nm", "5 N·m"), ("0,5 V", "0.5 V"), ("12 345 V", "12 345 V"), ("30 °", "30°"), ("3/8 inch", "3/8 in"),
        ("-40 degC", "-40 °C"), ("10 kohm", "10 kΩ"), ("10 mOhm", "10 mΩ"), ("1.50 A", "1.50 A"),
        ("At  Least 500kohm", "at least 500 kΩ"), ("11,5 to 14.8V", "11.5 to 14.8 V"), ("60 ohm +/-5%", "60 Ω ± 5 %"),
        ("49 V +1V / -3V", "49 V +1 V −3 V"), ("NM", "NM"), ("5 NM", "5 NM"), ("1,000 V", "1,000 V"), ("none", "none"),
    ],
)  # fmt: skip
def test_spelling_of_values(before: str, after: str) -> None:
    """One spelling of each unit, one blank before it; what is refused or no value stays."""
    assert after == spelled(before)


LINES = re.compile(r"(?m)^(?=[ \w-])")


@settings(max_examples=500 if IS_CAMPAIGN else 30, deadline=None)
@given(st.data())
def test_whatever_was_added_nothing_is_lost(data: st.DataObject) -> None:
    """Remarks, empty lines and wider indents anywhere: same model, all remarks, and tidy at the second time."""
    kind: FileKind = data.draw(st.sampled_from(["procedure", "vehicle"]))
    lines = (PROCEDURE if kind == "procedure" else VEHICLE).splitlines()
    step_of = data.draw(st.integers(1, 3))
    wider = []
    for number, line in enumerate(lines):
        for depth in data.draw(st.lists(st.integers(0, 6), max_size=1)):
            wider += [" " * depth + f"# remark {number}"]
        if data.draw(st.booleans()):
            wider.append("")
        depth = len(line) - len(line.lstrip(" "))
        wider.append(" " * (depth * step_of) + line.lstrip(" ").replace("- ", "-" + " " * (2 * step_of - 1), 1)
                     if line.lstrip(" ").startswith("- ") else " " * (depth * step_of) + line.lstrip(" "))  # fmt: skip
    text = "\n".join(wider) + "\n"

    once = tidied(PLACES[kind], text.encode(), kind)

    if isinstance(once, LeftAlone):  # what was added has spoilt the file
        assert load(PLACES[kind], text.encode(), kind).source.findings
        return
    assert Tidied(once.after, once.after, True) == tidied(PLACES[kind], once.after.encode(), kind)
    assert load(PLACES[kind], text.encode(), kind).model == load(PLACES[kind], once.after.encode(), kind).model
    assert sorted(re.findall("# remark [0-9]+", text)) == sorted(re.findall("# remark [0-9]+", once.after))


@settings(max_examples=300 if IS_CAMPAIGN else 20, deadline=None)
@given(st.randoms(use_true_random=False))
def test_keys_in_any_order_become_one_file(random: object) -> None:
    """The keys of a step, in whatever order they are typed, are tidied to the same lines."""
    keys = ["do: a", "on: nothing", "expect: b", "time: 2 min", "by: worker", "id: c"]
    shuffled = list(keys)
    random.shuffle(shuffled)  # type: ignore[attr-defined]

    assert step("  - " + "\n    ".join(keys) + "\n") == step("  - " + "\n    ".join(shuffled) + "\n")
