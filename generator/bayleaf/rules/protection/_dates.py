"""Tests and calibrations: when they are due, and how that is said."""

from calendar import monthrange
from datetime import date
from typing import NamedTuple

from ...model.workshop import Instrument, Protection, ProvingUnit, Workshop
from ...quantities.quantity import Quantity
from ..fault import Spot


class Dated(NamedTuple):
    """A thing of the workshop that is tested from time to time. `key` is the key of its date, `noun` what is done."""

    section: str
    id: str
    key: str
    noun: str
    day: date | None
    interval: Quantity | None

    @property
    def due(self) -> date | None:
        """The last day on which it is in date; None where that is not known."""
        return None if self.day is None or self.interval is None else _later(self.day, int(self.interval.si))

    def late(self, today: date) -> str | None:
        """What is wrong with its date, or None. Without date or interval nobody knows, and that is late too."""
        if self.day is None:
            return f"of `{self.id}` no date of {_A[self.noun]} is known"
        if self.due is None:
            return f"of `{self.id}` it is not known when the next {self.noun} is due"
        return f"the {self.noun} of `{self.id}` was due on {self.due}" if today > self.due else None

    def help(self, interval: str) -> str:
        """What to write, with an interval that is usual."""
        if self.day is None:
            return f"add `{self.key}: …` with the date on its label" + (
                "" if self.interval else f", and `interval: {interval}`"
            )
        return (
            f"add `interval: {interval}`"
            if self.interval is None
            else f"have it done, and write the new date under `{self.key}`"
        )

    def spot(self, workshop: Workshop) -> Spot:
        """Where its date stands in the workshop file, or the thing itself."""
        if self.day is None:
            return Spot(workshop.file, (self.section, self.id), "no date here", key=True)
        return Spot(workshop.file, (self.section, self.id, self.key), "the last time")


_A = {"calibration": "a calibration", "test": "a test", "check": "a check"}


def protection(one: Protection) -> Dated:
    """The test of a piece of protection."""
    return Dated("protection", one.id, "tested", "test", one.tested, one.interval)


def instrument(one: Instrument) -> Dated:
    """The calibration of an instrument."""
    return Dated("instruments", one.id, "calibrated", "calibration", one.calibrated, one.interval)


def proving_unit(one: ProvingUnit) -> Dated:
    """The check of a proving unit."""
    return Dated("proving_units", one.id, "checked", "check", one.checked, one.interval)


def _later(day: date, months: int) -> date:
    """So many months later; where that month is shorter, its last day. An interval that leads out of the calendar has no end."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    if year > date.max.year:
        return date.max
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))
