"""What is wrong with a text that should name a contact, and what to write instead."""

import re
from typing import NamedTuple

_CONNECTOR = re.compile(r"[A-Za-z]+[0-9]+[A-Za-z]?")
_PIN_OTHERWISE = re.compile(
    r"([A-Za-z]+[0-9]+)(?:\s*[-.:,_]\s*|\s+)(?:[Pp]in\s*)?([0-9]+|[A-Z]+[0-9]*)((?: device| cable)?)"
)
_WITH_SIDE = re.compile(r"([^\s/,]+/[^\s/,]+|[A-Za-z]+[0-9]+)\s+\S.*")
_GROUND = frozenset({"body", "car", "earth", "frame", "gnd", "ground", "housing", "mass", "minus", "vehicle"})


class ContactFault(NamedTuple):
    """Why a text is no contact, and what to write."""

    because: str
    help: str


def no_contact(text: str) -> ContactFault:
    """The fault of a text that has not the form of a contact."""
    text = " ".join(text.split())
    if text.casefold() == "chassis" or text.casefold() in _GROUND:
        return ContactFault("the metal of the vehicle has one name here", "write `chassis`")
    if _CONNECTOR.fullmatch(text):
        return ContactFault("a connector has several pins, and a probe touches one", f"name the pin: `{text}/1`")
    if pin := _PIN_OTHERWISE.fullmatch(text):
        return ContactFault("connector and pin are parted by a slash", f"write `{pin[1]}/{pin[2]}{pin[3]}`")
    if side := _WITH_SIDE.fullmatch(text):
        return ContactFault(
            "the sides of a parted connector are called `device` and `cable`",
            f"write `{side[1]} device` or `{side[1]} cable`",
        )
    return ContactFault(
        "a measurement is between two single points",
        "write a pin such as `X7/1`, one side of it such as `X7/1 device` or `X7/1 cable`, or `chassis`",
    )
