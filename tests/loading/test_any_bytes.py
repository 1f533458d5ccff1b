"""Nothing makes the loader raise; damaged files are mostly still read; both readers agree."""

import pytest
from bayleaf.loading.tree import read_source
from bayleaf.loading.yaml_reader import SlowTextLoader
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

VALID = """\
format: 1
id: larkway-m12/heater
title: Measure the heater's insulation
people: {at_least: 2}
steps:
  - set: {mode: off}
    do: Take the key to the lock box.   # at least 5 m away
    on: nothing
    time: 2 min
  - unplug: X7
  - id: insulation
    measure: Insulation of the heater, each pole to chassis
    between:
      - [X7/1 device, chassis]
      - [X7/2 device, chassis]
    test_voltage: 500 V
    limits: {rule: insulation resistance, at_least: 5 MΩ}
    outcomes:
      within: seal
      below: heater-leaks
  - id: seal
    ask: "Is the seal of X7 dry: yes or no?"
    answers:
      - answer: yes, dry and whole
        then: next
      - answer: no
        then: water-in-plug
conclusions:
  heater-leaks:
    finding: >-
      The heater leaks
      to its housing.
    say: |
      Seal it.
"""
SIGNS = " \t\n-:#[]{},\"'&*!%@`|>\u00a0\u200b“x~\\"
SETTINGS = settings(max_examples=300, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))


def paths(data, path=()):
    """Every path of a tree."""
    yield path
    children = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for step, child in children:
        yield from paths(child, (*path, step))


def check(data: bytes) -> None:
    """What holds of every file: order, places inside the text, a finding or data."""
    source = read_source("a.yml", data)
    lines = source.text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for path in paths(source.data):
        for place in (source.place(path), source.place(path, key=True), source.place(path, 1, 3)):
            assert 1 <= place.line == place.end_line <= len(lines)
            assert 1 <= place.column <= place.end_column <= len(lines[place.line - 1]) + 1
    assert source.data is not None or source.findings or source.text.strip()
    assert list(source.findings) == sorted(source.findings, key=lambda f: (f.place, f.rule, f.message))
    assert all("\n" not in finding.message for finding in source.findings)


@SETTINGS
@given(st.binary(max_size=200))
def test_any_bytes(data):
    """Bytes of no meaning at all."""
    check(data)


@SETTINGS
@given(st.text(alphabet=st.sampled_from(SIGNS + "ab1?\r\ufeff\ufdd0\u2028…"), max_size=60))
def test_any_text_of_signs(text):
    """Texts made of the signs that mean something, stand-ins and separators included."""
    check(text.encode())


@st.composite
def damaged(draw):
    """The valid file with one or two mistakes of a kind that fingers and editors make."""
    text = VALID
    for _ in range(draw(st.integers(1, 2))):
        kind = draw(st.sampled_from(["delete", "insert", "replace", "indent", "outdent", "move", "double"]))
        at = draw(st.integers(0, len(text) - 1))
        sign = draw(st.sampled_from(SIGNS))
        lines = text.split("\n")
        number = draw(st.integers(0, len(lines) - 1))
        if kind == "delete":
            text = text[:at] + text[at + 1 :]
        elif kind == "insert":
            text = text[:at] + sign + text[at:]
        elif kind == "replace":
            text = text[:at] + sign + text[at + 1 :]
        else:
            line = lines[number]
            if kind == "indent":
                lines[number] = " " + line
            elif kind == "outdent":
                lines[number] = line[2:] if line.startswith("  ") else line
            elif kind == "double":
                lines.insert(number, line)
            else:
                lines.insert(draw(st.integers(0, len(lines) - 1)), lines.pop(number))
            text = "\n".join(lines)
    return text


@SETTINGS
@given(damaged())
def test_a_damaged_file(text):
    """A file as it looks in the middle of an edit."""
    check(text.encode())


@settings(SETTINGS, max_examples=100)
@given(damaged())
def test_both_readers_agree_on_a_damaged_file(text):
    """The same data, the same words, the same places, with libyaml and without it."""
    fast, slow = read_source("a.yml", text.encode()), read_source("a.yml", text.encode(), SlowTextLoader)

    assert (fast.data, fast.findings) == (slow.data, slow.findings)
    for path in paths(fast.data):
        assert fast.place(path) == slow.place(path)
        assert fast.place(path, 1, 3) == slow.place(path, 1, 3)


def test_most_damaged_files_still_yield_data():
    """At least 30 % of them, or the later stages would never be tried on damaged files."""
    read: list[bool] = []

    @SETTINGS
    @given(damaged())
    def count(text):
        read.append(read_source("a.yml", text.encode()).data is not None)

    count()
    assert sum(read) >= 0.3 * len(read)


BOMBS = {
    "brackets": "[" * 100_000,
    "braces": "{" * 100_000,
    "dashes": "- " * 50_000,
    "question marks": "? " * 50_000,
    "steps to the right": "".join(" " * n + "a:\n" for n in range(400)),
    "aliases of aliases": "k0: &k0 [x]\n"
    + "".join(f"k{n}: &k{n} [{', '.join([f'*k{n - 1}'] * 9)}]\n" for n in range(1, 12)),
    "a knot": "a: &a\n  b: *a\n",
    "quotes": '"' * 100_000,
    "carriage returns": "\r" * 100_000,
    "percent signs": "%a\n" * 30_000,
}  # fmt: skip


@pytest.mark.parametrize("text", BOMBS.values(), ids=BOMBS)
def test_texts_made_to_break_readers_give_a_finding(text):
    """No stack runs out and nothing multiplies."""
    source = read_source("a.yml", text.encode())

    assert 1 <= len(source.findings) <= 40
