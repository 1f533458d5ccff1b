"""Trouble codes: their form, their bytes, and who gives them a meaning."""

import pytest
from bayleaf.model.trouble_code import TroubleCode, from_bytes, parse_trouble_code
from hypothesis import given
from hypothesis import strategies as st

#: Bytes and text: SAE J2012 (two highest bits the letter, the next two the first digit), worked by hand; those
#: marked "also in public code" stand in published decoders as well.
DECODED = (
    ("0A A6", "P0AA6"),
    ("0A 80", "P0A80"),  # also in public code
    ("30 19", "P3019"),  # also in public code
    ("C1 12", "U0112"),  # also in public code
    ("C1 58", "U0158"),
    ("96 A1", "B16A1"),  # also in public code
    ("4B 12 14", "C0B12-14"),
    ("D0 01 87", "U1001-87"),
    ("01 43", "P0143"),
    ("33 FF", "P33FF"),
    ("34 00", "P3400"),
    ("FF FF", "U3FFF"),
)


@pytest.mark.parametrize(("data", "text"), DECODED)
def test_bytes_stand_for_the_code(data: str, text: str) -> None:
    """Two bytes are a code, a third one its failure type."""
    code = from_bytes(bytes.fromhex(data))

    assert text == str(code)
    assert code == parse_trouble_code(text)


@pytest.mark.parametrize(
    "text", ["P4000", "X0100", "P0G00", "P012", "p0aa6", "P0AA6-1G", "P0AA61B", "", "P0AA6-", "P0AA6 "]
)
def test_what_is_not_in_the_form_is_no_code(text: str) -> None:
    """Form of ISO 15031-6 and SAE J2012; the failure type stands behind a hyphen."""
    assert parse_trouble_code(text) is None


#: SAE J2012, who owns which range, at both ends of each.
OWNED = (
    ("ISO/SAE", ("P0000", "P0FFF", "P2000", "P2FFF", "P3400", "P3FFF")),
    ("manufacturer", ("P1000", "P1FFF", "P3000", "P33FF")),
    ("ISO/SAE", ("B0000", "B0FFF", "C0000", "C0FFF", "U0000", "U0FFF", "U3000", "U3FFF")),
    ("manufacturer", ("B1000", "B2FFF", "C1000", "C2FFF", "U1000", "U2FFF")),
    ("reserved", ("B3000", "B3FFF", "C3000", "C3FFF")),
)


@pytest.mark.parametrize(("owner", "text"), [(owner, text) for owner, texts in OWNED for text in texts])
def test_range_tells_the_owner(owner: str, text: str) -> None:
    """The letter and the digits behind it tell whose code it is."""
    assert owner == TroubleCode(text).owner


@pytest.mark.parametrize(
    ("text", "system"), [("P0AA6", "powertrain"), ("C0B12", "chassis"), ("B16A1", "body"), ("U0112", "network")]
)
def test_letter_tells_the_system(text: str, system: str) -> None:
    """Letters of SAE J2012."""
    assert system == TroubleCode(text).system


@given(st.binary(min_size=2, max_size=3))
def test_every_message_has_a_code_of_its_own(data: bytes) -> None:
    """Each pair of bytes gives a well-formed code, from which the bytes can be had again."""
    code = from_bytes(data)

    first = "PCBU".index(code.code[0]) << 6 | int(code.code[1]) << 4 | int(code.code[2], 16)
    failure_type = bytes.fromhex(code.failure_type) if code.failure_type is not None else b""
    assert parse_trouble_code(str(code)) == code
    assert data == bytes([first, int(code.code[3:], 16)]) + failure_type


@pytest.mark.parametrize("data", [b"", b"\x0a", b"\x0a\xa6\x1b\x00"])
def test_other_lengths_are_a_fault_of_the_caller(data: bytes) -> None:
    """One byte is no code, and four are none either."""
    with pytest.raises(ValueError, match="two bytes, or three"):
        from_bytes(data)
