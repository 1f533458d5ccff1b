"""A trouble code has not the form of one.

## Why it matters

The code is what the technician reads on the scan tool and types into the search. One that is written
otherwise is never found, and the fault that it announces is not reckoned with.

## Fails

```yaml fails procedure
trouble_codes:
  - p0aa6  # <- `p0aa6` is written in small letters
  - POAA6  # <- `POAA6` has a letter where a digit belongs
  - P4000  # <- `P4000` has `4` as its second character
  - X0100  # <- `X0100` begins with `X`
  - P0G00  # <- `P0G00` holds `G`, which is no hexadecimal digit
  - P012  # <- `P012` has 4 characters; a trouble code has 5
  - C0B1214  # <- the failure type of `C0B1214` stands without its hyphen
```

```yaml fails vehicle
codes:
  P0AA6-1G: {means: Traction system against chassis}  # <- `P0AA6-1G` holds `G`, which is no hexadecimal digit
```

## Passes

```yaml passes procedure
trouble_codes: [P0AA6, C0B12-14, U3FFF]
```

## Source

ISO 15031-6 and SAE J2012: a letter (P powertrain, C chassis, B body, U network), a digit 0 to 3, three
hexadecimal digits. The failure type is the third byte of ISO 14229-1: two hexadecimal digits, here behind
a hyphen.
"""

import re
from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.trouble_code import SYSTEMS, parse_trouble_code
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault

KIND = "form"
SEVERITY = "error"

#: Letters that are taken for digits, in print and by hand.
_LOOKALIKES = str.maketrans({"O": "0", "I": "1", "L": "1"})
_SEPARATORS = re.compile(r"[\s\u2010-\u2015\u2212_:/.-]+")


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The codes that the procedure is for."""
    for index, code in enumerate(procedure.trouble_codes):
        if parse_trouble_code(code) is None:
            message, help_ = _wrong(code)
            yield Fault(("trouble_codes", index), message, help=help_)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The codes whose meaning the profile gives."""
    for meaning in vehicle.codes.values():
        if parse_trouble_code(meaning.code) is None:
            message, help_ = _wrong(meaning.code)
            yield Fault(meaning.at, message, help=help_, key=True)


def _wrong(text: str) -> tuple[str, str]:
    """What is wrong with a text that is no code, and what to write."""
    bare = _SEPARATORS.sub("", text.upper())
    digits = bare[:1] + bare[1:].translate(_LOOKALIKES)
    right = digits if len(digits) == 5 else f"{digits[:5]}-{digits[5:]}"
    help_ = f"write `{right}`"
    if parse_trouble_code(right) is None:
        return _wrong_character(text, bare)
    if digits != bare:
        return f"`{text}` has a letter where a digit belongs", help_
    if right == text.upper():
        return f"`{text}` is written in small letters", help_
    if len(text) == 7 and bare == text.upper():
        return f"the failure type of `{text}` stands without its hyphen", help_
    return f"`{text}` is not written as a trouble code", help_


def _wrong_character(text: str, bare: str) -> tuple[str, str]:
    letters = ", ".join(f"`{letter}` {system}" for letter, system in SYSTEMS.items())
    form = "write a letter, a digit 0 to 3 and three hexadecimal digits, such as `P0AA6` or `C0B12-14`"
    if bare[:1] not in SYSTEMS:
        return f"`{text}` begins with `{text[:1]}`", f"a trouble code begins with {letters}"
    if len(bare) not in (5, 7):
        return f"`{text}` has {len(bare)} characters; a trouble code has 5", form
    wrong = next((sign for sign in bare[1:] if sign not in "0123456789ABCDEF"), None)
    if wrong is not None:
        return f"`{text}` holds `{wrong}`, which is no hexadecimal digit", "use 0 to 9 and A to F"
    return f"`{text}` has `{bare[1]}` as its second character", "the second character is 0, 1, 2 or 3"
