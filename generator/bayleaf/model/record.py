"""A job record: what was done and read on one vehicle."""

from dataclasses import dataclass

from ..diagnostics.place import Path
from ..quantities.limit import Limit
from ..quantities.quantity import Quantity
from .contact import Contact


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a record. `step` is the way through performed procedures, as ("isolate", "prove")."""

    at: Path
    step: tuple[str, ...]
    time: str | None
    done: bool | None
    reading: Quantity | None
    no_reading: bool
    between: tuple[Contact, Contact] | None
    limits: Limit | None
    instrument: str | None
    verdict: str | None
    torque: Quantity | None
    answer: str | None
    exit: str | None
    reason: str | None
    paused: str | None


@dataclass(frozen=True, slots=True)
class PartFitted:
    """A part that was fitted in a job."""

    at: Path
    part: str
    number: str | None
    count: int


@dataclass(frozen=True, slots=True)
class Record:
    """The record as a whole. `file` is relative to the manual."""

    file: str
    job: str
    procedure: str
    revision: int | None
    digest: str | None
    started: str | None
    odometer: Quantity | None
    vin: str | None
    variant: str | None
    entries: tuple[Entry, ...]
    fitted: tuple[PartFitted, ...]
    minutes: int | None
    conclusion: str | None
    remarks: str | None
    broken: bool = False
