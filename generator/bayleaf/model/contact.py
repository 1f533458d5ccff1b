"""Contacts: the points that a probe touches."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

Side = Literal["device", "cable"]

CHASSIS = "chassis"


@dataclass(frozen=True, slots=True)
class Contact:
    """A pin of a connector, all pins of one side of it, or the chassis.

    `X7/1` is the pin of the mated connector, `X7/1 device` and `X7/1 cable` are its two sides,
    `X7 device` is every pin of that side (`pin` is None).
    """

    connector: str
    pin: str | None = None
    side: Side | None = None

    @property
    def is_chassis(self) -> bool:
        """Whether it is the chassis, which is no connector."""
        return self.connector == CHASSIS

    def __str__(self) -> str:
        pin = f"/{self.pin}" if self.pin is not None else ""
        side = f" {self.side}" if self.side is not None else ""
        return f"{self.connector}{pin}{side}"


@lru_cache(maxsize=65536)
def read_contact(text: str) -> Contact | None:
    """The contact that a text names, or None where it has not the form of one.

    Whether the vehicle has such a connector is not asked here.
    """
    words = text.split()
    if not words or len(words) > 2:
        return None
    side: Side | None = None
    if len(words) == 2:
        if words[1] == "device":
            side = "device"
        elif words[1] == "cable":
            side = "cable"
        else:
            return None
    connector, slash, pin = words[0].partition("/")
    if not connector or (slash and not pin) or "/" in pin:
        return None
    if connector == CHASSIS and (slash or side):
        return None
    if not slash and side is None and connector != CHASSIS:
        return None
    return Contact(connector, pin if slash else None, side)
