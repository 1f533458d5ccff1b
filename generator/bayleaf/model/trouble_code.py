"""Diagnostic trouble codes, as ISO 15031-6 and SAE J2012 write them: `P0AA6`, with a failure type `C0B12-14`.

Only the form is known here and who may give a code its meaning, never the meaning itself.
"""

import re
from dataclasses import dataclass
from typing import Literal

Owner = Literal["ISO/SAE", "manufacturer", "reserved"]

#: By the two highest bits of the first byte.
SYSTEMS = {"P": "powertrain", "C": "chassis", "B": "body", "U": "network"}

_FORM = re.compile(r"([PCBU][0-3][0-9A-F]{3})(?:-([0-9A-F]{2}))?")


@dataclass(frozen=True, slots=True)
class TroubleCode:
    """A code of five characters, and the failure type behind its hyphen where there is one."""

    code: str
    failure_type: str | None = None

    def __str__(self) -> str:
        return self.code if self.failure_type is None else f"{self.code}-{self.failure_type}"

    @property
    def system(self) -> str:
        """The part of the vehicle that the letter stands for."""
        return SYSTEMS[self.code[0]]

    @property
    def owner(self) -> Owner:
        """Who gives the code its meaning, by its range.

        P3 is divided: up to P33FF it is the manufacturer's, from P3400 on it is ISO/SAE's. U3 is ISO/SAE's,
        B3 and C3 are reserved. Source: SAE J2012 (ranges of 2025-09, as audited by a public project).
        """
        letter, digit = self.code[0], self.code[1]
        if letter == "P":
            return "ISO/SAE" if digit in "02" or self.code >= "P3400" else "manufacturer"
        if digit in "12":
            return "manufacturer"
        return "ISO/SAE" if digit == "0" or letter == "U" else "reserved"


def parse_trouble_code(text: str) -> TroubleCode | None:
    """The code that a text is, or None. Nothing is put right: capitals and the hyphen must be there."""
    found = _FORM.fullmatch(text)
    return TroubleCode(found[1], found[2]) if found else None


def from_bytes(data: bytes) -> TroubleCode:
    """The code that two bytes of a diagnostic message stand for; a third one is the failure type.

    The two highest bits are the letter, the next two the first digit, the rest three hexadecimal digits.
    Source: SAE J2012; format identifiers 0x00 and 0x04 of ISO 14229-1.
    """
    if len(data) not in (2, 3):
        raise ValueError(f"a trouble code has two bytes, or three with its failure type, not {len(data)}")
    first, second = data[0], data[1]
    letter = "PCBU"[first >> 6]
    code = f"{letter}{first >> 4 & 0b11}{first & 0b1111:X}{second:02X}"
    return TroubleCode(code, f"{data[2]:02X}" if len(data) == 3 else None)
