"""A job record, from plain data to the model."""

from ..diagnostics.place import Path
from ..model.record import Entry, PartFitted, Record
from .reader import Reader
from .value_reader import Data


def read_record(data: Data, reader: Reader, file: str) -> Record:
    """The record; what could not be read is missing in it."""
    entries = (
        _entry(reader, value, ("entries", index))
        for index, value in enumerate(data.get("entries") or ()) if isinstance(value, dict)
    )  # fmt: skip
    fitted = (
        PartFitted(
            ("fitted", index), reader.text(value, "part") or "", reader.text(value, "number"),
            reader.count(value, "count") or 1,
        )
        for index, value in enumerate(data.get("fitted") or ()) if isinstance(value, dict)
    )  # fmt: skip
    return Record(
        file=file,
        job=reader.text(data, "job") or "",
        procedure=reader.text(data, "procedure") or "",
        revision=reader.count(data, "revision"),
        digest=reader.text(data, "digest"),
        started=reader.text(data, "started"),
        odometer=reader.quantity(data, "odometer", (), "length"),
        vin=reader.text(data, "vin"),
        variant=reader.text(data, "variant"),
        entries=tuple(entries),
        fitted=tuple(fitted),
        minutes=reader.count(data, "minutes"),
        conclusion=reader.text(data, "conclusion"),
        remarks=reader.text(data, "remarks"),
        broken=reader.is_broken(()),
    )


def _entry(reader: Reader, data: Data, at: Path) -> Entry:
    step = reader.text(data, "step") or ""
    no_reading = data.get("reading") == "no reading"
    return Entry(
        at=at,
        step=tuple(step.split("/")),
        time=reader.text(data, "at"),
        done=reader.yes(data, "done"),
        reading=None if no_reading else reader.quantity(data, "reading", at),
        no_reading=no_reading,
        between=reader.pair(data.get("between"), (*at, "between")),
        limits=reader.limit(data, "limits", at),
        instrument=reader.text(data, "instrument"),
        verdict=data.get("verdict"),
        torque=reader.quantity(data, "torque", at, "torque"),
        answer=reader.text(data, "answer"),
        exit=reader.text(data, "exit"),
        reason=reader.text(data, "reason"),
        paused=data.get("paused"),
    )
