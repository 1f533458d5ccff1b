"""A bolted joint as the calculations need it: thread, class, torque, friction, what it is screwed into."""

import re
from dataclasses import dataclass

from ..calculations.hexagon_heads import HEADS
from ..calculations.property_classes import STAINLESS, STEEL, read_class
from ..calculations.threads import METRIC, read_thread
from ..calculations.tightening import FRICTION
from ..model.actions import Tighten
from ..model.vehicle import Fastener
from ..quantities.limit import Limit

#: A nut is marked with the first figure of the bolts that it goes with. Source: ISO 898-2 (from memory).
_NUTS = {"4": "4.8", "5": "5.8", "6": "6.8", "8": "8.8", "9": "9.8", "10": "10.9", "12": "12.9"}
#: Metals that carry the current themselves: their studs have a table of their own, whatever is stamped on the nut.
_CONDUCTORS = ("brass", "copper", "bronze", "cuzn", "cusn")
_RANGE = re.compile(r"(\d*[.,]\d+)(?:\s*(?:to|-|–)\s*(\d*[.,]\d+))?")
_CLASS = re.compile(r"(?:class\s*)?([A-D])", re.IGNORECASE)
#: A metric size with what stands behind it, and an inch size. Screws for sheet metal or plastic are neither.
_METRIC = re.compile(r"\s*M\s*(\d+(?:[.,]\d+)?)", re.IGNORECASE)
_INCH = re.compile(r"\s*(?:\d+/\d+\s*-|.*\bUN[CF]\b)", re.IGNORECASE)
#: The length of a bolt behind its thread, and a thread to the left.
_BEHIND = re.compile(r"\s*(?:[x×*]\s*(?:[1-9]\d|\d{3})\s*(?:mm)?|,?\s*left[- ]hand(?:ed)?)\s*$", re.IGNORECASE)
#: Diameters of ISO 261 (first to third choice, up to 64 mm) that the tables of threads do not hold; from memory.
_BEYOND_TABLES = frozenset((
    "1", "1.1", "1.2", "1.4", "1.6", "1.8", "2", "2.2", "2.5", "4.5", "5.5", "9", "11", "15", "17", "25", "26", "27",
    "28", "30", "32", "33", "35", "36", "38", "39", "40", "42", "45", "48", "50", "52", "55", "56", "58", "60", "62",
    "64",
))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Friction:
    """Lowest and highest friction, of thread and head alike."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Joint:
    """A joint. `thread` and `strength_class` are keys of the tables, None where they are not there or not known.

    `torque` is in N·m from and to, None where none is stated; `engagement` in mm. `friction` is None where nothing is
    said of it. `conducts`: the stud carries the current.
    """

    size: str | None
    thread: str | None
    strength_class: str | None
    torque: tuple[float, float] | None
    friction: Friction | None
    into: str | None = None
    engagement: float | None = None
    yields: bool = False
    turned_on: bool = False
    conducts: bool = False

    @property
    def is_computable(self) -> bool:
        """Whether VDI 2230 can be applied: a metric hexagon bolt of a class in the tables, no conductor."""
        return (
            not self.conducts
            and (self.torque is None or self.torque[0] > 0)
            and self.thread in METRIC
            and (self.thread or "").split("x")[0] in HEADS
            and (self.strength_class in STEEL or self.strength_class in STAINLESS)
        )


def joint_of(fastener: Fastener) -> Joint:
    """The joint of a fastener of the profile."""
    material = fastener.material or ""
    strength = fastener.property_class or material or None
    return Joint(
        size=fastener.size,
        thread=thread_of(fastener.size) if fastener.size is not None else None,
        strength_class=class_of(strength) if strength is not None else None,
        torque=torque_of(fastener.torque),
        friction=friction_of(fastener.friction) if fastener.friction is not None else None,
        into=fastener.into,
        engagement=float(fastener.engagement.si) * 1000 if fastener.engagement is not None else None,
        yields=bool(fastener.yields),
        turned_on=fastener.then_turn is not None,
        conducts=any(metal in material.lower() for metal in _CONDUCTORS),
    )


def joint_of_step(tighten: Tighten) -> Joint:
    """The joint of a fastener that a step describes itself."""
    return Joint(
        size=tighten.size,
        thread=thread_of(tighten.size) if tighten.size is not None else None,
        strength_class=class_of(tighten.property_class) if tighten.property_class is not None else None,
        torque=torque_of(tighten.torque),
        friction=None,
        turned_on=tighten.then_turn is not None,
    )


def class_of(text: str) -> str | None:
    """The property class of a bolt; of a nut, that of the bolts it goes with."""
    return _NUTS.get(text.strip()) or read_class(text)


def torque_of(torque: Limit | None) -> tuple[float, float] | None:
    """The torque from and to, in N·m; a plain value, or the one end that is stated, is both."""
    if torque is None:
        return None
    known = [one for one in (torque.low, torque.nominal, torque.high) if one is not None]
    return float(known[0].si), float(known[-1].si)


def friction_of(text: str) -> Friction | None:
    """`0.10 to 0.16`, `0.12`, or a friction class of VDI 2230 (`B`); None where it is neither."""
    named = _CLASS.fullmatch(text.strip())
    if named is not None:
        low, high = FRICTION[named[1].upper()]
        return Friction(low, high)
    found = _RANGE.fullmatch(text.strip())
    if found is None:
        return None
    low = float(found[1].replace(",", "."))
    high = float(found[2].replace(",", ".")) if found[2] else low
    return Friction(low, high) if 0 < low <= high < 1 else None


def thread_of(text: str) -> str | None:
    """The thread in the tables; the length of the bolt behind it, and a thread to the left, are passed over."""
    return read_thread(text) or read_thread(_BEHIND.sub("", text))


def is_no_thread(text: str) -> bool:
    """Whether a text names a metric or inch thread that no standard knows; one beyond the tables is left alone."""
    metric = _METRIC.match(text)
    if metric is not None:
        return thread_of(text) is None and metric[1].replace(",", ".") not in _BEYOND_TABLES
    return _INCH.match(text) is not None and thread_of(text) is None
