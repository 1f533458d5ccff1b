"""What technicians write, and what is read from it."""

import pytest
from bayleaf.loading.tree import read_source
from bayleaf.loading.yaml_reader import SlowTextLoader, TextLoader

ACCEPTED = {
    "what YAML takes for yes and no is text": ("on: no\noff: yes\n", {"on": "no", "off": "yes"}),
    "what YAML takes for a number is text": (
        "a: 5:30\nb: 00123456\nc: 1.10\nd: 0x10\ne: 1e3\nf: .inf\n",
        {"a": "5:30", "b": "00123456", "c": "1.10", "d": "0x10", "e": "1e3", "f": ".inf"},
    ),
    "a date is text": ("date: 2026-09-30\n", {"date": "2026-09-30"}),
    "no value": ("a:\nb: ~\nc: null\nd: ''\ne: \"null\"\n", {"a": None, "b": None, "c": None, "d": "", "e": "null"}),
    "minus signs and dashes stay as written": ("a: −5 V\nb: –5 V\n", {"a": "−5 V", "b": "–5 V"}),
    "no-break space in a value": ("a: 5\u00a0V\nb: 1\u00a0000 V\n", {"a": "5\u00a0V", "b": "1\u00a0000 V"}),
    "units in every spelling": ("a: 5 N·m\nb: 5 N⋅m\nc: 3 \u2126\nd: 3 Ω\ne: 2 µF\n",
                                {"a": "5 N·m", "b": "5 N⋅m", "c": "3 \u2126", "d": "3 Ω", "e": "2 µF"}),
    "curly quotes inside a text": ("say: The driver’s “ready” lamp\n", {"say": "The driver’s “ready” lamp"}),
    "remarks": ("a: b # remark\n#remark\nc: [d] #remark\ne: 'f' #remark\ng: h # see #3\n",
                {"a": "b", "c": ["d"], "e": "f", "g": "h"}),
    "quoted texts hold everything": ("a: \"P0A0D: x #3\"\nb: '*5, {it''s}'\n", {"a": "P0A0D: x #3", "b": "*5, {it's}"}),
    "colons and hashes inside words": ("a: https://example.org/a#b\nb: X7:X8\n",
                                       {"a": "https://example.org/a#b", "b": "X7:X8"}),
    "signs inside a text": ("a: R & D * 3 ! 100 % @ noon\n", {"a": "R & D * 3 ! 100 % @ noon"}),
    "blocks of text": ("a: |\n  x: y #3\n  &z\nb: >-\n  p\n  q\n", {"a": "x: y #3\n&z\n", "b": "p q"}),
    "a text over two lines": ("a: Park and\n  secure\n", {"a": "Park and secure"}),
    "lists and maps in brackets": ("a: [X7/1 device, chassis]\nb: {mode: off, open: [x]}\n",
                                   {"a": ["X7/1 device", "chassis"], "b": {"mode": "off", "open": ["x"]}}),
    "a question mark inside braces": ("{ask: dry?, then: next}\n", {"ask": "dry?", "then": "next"}),
    "one leading document mark": ("---\na: b\n", {"a": "b"}),
    "a tab behind a colon": ("a:\tb\n", {"a": "b"}),
    "lines that end in CRLF": ("a: b\r\nc:\r\n  - d\r\n", {"a": "b", "c": ["d"]}),
    "lines that end in CR": ("a: b\rc: d\r", {"a": "b", "c": "d"}),
    "a key that reads like a value": ("no: 1\n12: 2\nnull: 3\n", {"no": "1", "12": "2", "null": "3"}),
    "emoji with a variation selector": ("say: ⚠\ufe0f hot\n", {"say": "⚠\ufe0f hot"}),
}  # fmt: skip


@pytest.mark.parametrize("loader", [TextLoader, SlowTextLoader])
@pytest.mark.parametrize(("text", "data"), ACCEPTED.values(), ids=ACCEPTED)
def test_it_is_read_as_written_without_a_finding(text, data, loader):
    """Both readers take it the same way."""
    source = read_source("a.yml", text.encode(), loader)

    assert (data, ()) == (source.data, source.findings)


def test_keys_keep_their_order():
    """The order of a file is part of what its author wrote."""
    assert list(read_source("a.yml", b"z: 1\na: 2\nm: 3\n").data) == ["z", "a", "m"]
