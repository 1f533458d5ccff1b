"""Bytes become text, or a fault with the place of the first byte that does not fit."""

import pytest
from bayleaf.loading.text import MAX_BYTES, Fault, Lines, decode

TEXT = "limits: at least 5 MΩ\nsay: 9 °C\n"


@pytest.mark.parametrize(
    "data",
    [
        TEXT.encode("utf-8"),
        TEXT.encode("utf-8-sig"),
        TEXT.encode("utf-16"),
        b"\xff\xfe" + TEXT.encode("utf-16-le"),
        b"\xfe\xff" + TEXT.encode("utf-16-be"),
    ],
    ids=["utf-8", "utf-8 with mark", "utf-16", "utf-16 little-endian", "utf-16 big-endian"],
)
def test_accepted_encodings_give_the_same_text(data):
    """A byte order mark is no part of the text."""
    assert decode(data) == TEXT


@pytest.mark.parametrize(
    ("data", "line", "column", "message"),
    [
        (
            # 0xB0 is the degree sign in Windows-1252 (the Unicode consortium's CP1252.TXT, as Python's codec).
            "a: b\nsay: Ω\n".encode() + b"max: 60 \xb0C\n",
            3,
            9,
            "the file is not saved as UTF-8: byte 0xB0 stands here, which would be “°” in Windows-1252",
        ),
        (b"\x81: b", 1, 1, "the file is not saved as UTF-8: byte 0x81 stands here"),
        (b"a: \xe2\x82", 1, 4,
         "the file is not saved as UTF-8: byte 0xE2 stands here, which would be “â” in Windows-1252"),
        (b"\xff\xfea\x00\n\x00\x00", 2, 1, "the file begins as UTF-16, but here two bytes are no character"),
        (b"\xff\xfe\x00\x00a\x00\x00\x00", 1, 1, "the file is saved as UTF-32, not as UTF-8"),
        ("a: Ω\n".encode("utf-16-le") + b"\xa9", 1, 1, "the file is saved as UTF-16 without a mark, not as UTF-8"),
    ],
    ids=["windows-1252", "no character at all", "cut short", "utf-16 cut short", "utf-32", "utf-16 without mark"],
)  # fmt: skip
def test_other_encodings_are_refused_at_the_first_byte_that_does_not_fit(data, line, column, message):
    """The message names the byte and, where Windows-1252 has one, the character that was meant."""
    fault = decode(data)

    assert isinstance(fault, Fault)
    assert ("not-utf-8", line, column, message) == (fault.rule, fault.line, fault.column, fault.message)


def test_a_file_over_the_bound_is_not_read():
    """The bound is named in the message."""
    fault = decode(b"a" * (MAX_BYTES + 1))

    assert isinstance(fault, Fault)
    assert fault.rule == "file-too-large"
    assert fault.message == "the file holds 1 048 577 bytes; at most 1 048 576 are read"
    assert isinstance(decode(b"a" * MAX_BYTES), str)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_every_kind_of_line_end_counts_as_one(end):
    """LF, CRLF and CR give the same lines and columns."""
    lines = Lines(f"ab{end}c{end}{end}de")

    assert lines.position(len(f"ab{end}")) == (2, 1)
    assert lines.position(len(f"ab{end}c{end}{end}d")) == (4, 2)
    assert lines.line_end(0) == 2
    assert len(f"ab{end}") == lines.line_start(len(f"ab{end}"))
