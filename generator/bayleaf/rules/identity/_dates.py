"""Dates compared with today."""

from datetime import date, timedelta

from ..case import Case

#: Somewhere on Earth it is tomorrow already, and a file may have been written there.
TOLERANCE = timedelta(days=1)


def is_in_future(day: date, case: Case) -> bool:
    """Whether a date cannot have come yet, wherever it was written down."""
    return day > case.today + TOLERANCE


def day_of(text: str | None) -> date | None:
    """The day of a date and time such as `2026-09-30 08:15`; None where there is none, or it is impossible."""
    try:
        return date.fromisoformat(text[:10]) if text else None
    except ValueError:
        return None
