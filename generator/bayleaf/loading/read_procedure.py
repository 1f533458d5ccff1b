"""A procedure, from plain data to the model."""

from typing import Any

from ..diagnostics.place import Path
from ..model.procedure import Conclusion, PartNeeded, Procedure, Revision
from .read_steps import read_steps
from .reader import Reader
from .value_reader import Data


def read_procedure(data: Data, reader: Reader, file: str) -> Procedure:
    """The procedure; what could not be read is missing in it and marked broken."""
    folder, _, name = file.removeprefix("procedures/").rpartition("/")
    applies = data.get("applies") or {}
    people = data.get("people") or {}
    steps, whole = read_steps(data.get("steps"), reader)
    return Procedure(
        file=file,
        folder=folder,
        id=reader.text(data, "id") or f"{folder}/{name.removesuffix('.yml')}",
        title=reader.text(data, "title") or name.removesuffix(".yml"),
        kind=data.get("kind") or "",
        system=reader.text(data, "system"),
        about=reader.text(data, "about"),
        variants=reader.words(applies, "variants"),
        built=reader.built(applies, "built", ("applies",)),
        trouble_codes=reader.words(data, "trouble_codes"),
        symptoms=reader.words(data, "symptoms"),
        faults=reader.words(data, "faults"),
        handles=reader.words(data, "handles"),
        expects=_states(data.get("expects")),
        leaves=_states(data.get("leaves")),
        stays_off=reader.names(data, "stays_off"),
        revisions=_revisions(data, reader),
        people=reader.count(people, "at_least"),
        qualification=reader.text(people, "who"),
        roles={key: text for key, text in (data.get("roles") or {}).items() if isinstance(text, str)},
        time=reader.quantity(data, "time", (), "time"),
        tools=reader.words(data, "tools"),
        consumables=reader.words(data, "consumables"),
        parts=_parts(data, reader),
        messages=reader.messages(data, ()),
        steps=steps,
        conclusions=reader.each(data, "conclusions", lambda *item: _conclusion(reader, *item)),
        waivers=reader.waivers(data),
        shape_is_whole=whole,
        broken=reader.is_broken(()),
    )


def _states(data: Any) -> tuple[tuple[str, Any], ...]:
    return tuple((circuit, state) for circuit, state in (data or {}).items() if state is not None)


def _revisions(data: Data, reader: Reader) -> tuple[Revision, ...]:
    return tuple(
        Revision(
            ("revisions", index), reader.count(value, "number"),
            reader.date(value, "date", ("revisions", index)), reader.text(value, "why") or "",
            reader.text(value, "by"),
        )
        for index, value in enumerate(data.get("revisions") or ()) if isinstance(value, dict)
    )  # fmt: skip


def _parts(data: Data, reader: Reader) -> tuple[PartNeeded, ...]:
    return tuple(
        PartNeeded(
            ("parts", index), reader.text(value, "part") or "", reader.count(value, "count") or 1,
            reader.text(value, "when"),
        )
        for index, value in enumerate(data.get("parts") or ()) if isinstance(value, dict)
    )  # fmt: skip


def _conclusion(reader: Reader, name: str, data: Data, at: Path) -> Conclusion:
    return Conclusion(
        at=at,
        id=name,
        finding=reader.text(data, "finding") or "",
        stops=data.get("end") == "stop",
        say=reader.text(data, "say"),
        repair=reader.words(data, "repair"),
        parts=reader.words(data, "part"),
        leaves=_states(data.get("leaves")),
        stays_off=reader.names(data, "stays_off"),
        broken=reader.is_broken(at),
    )
