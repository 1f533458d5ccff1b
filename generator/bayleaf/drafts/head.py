"""The keys of a procedure above its steps."""

from datetime import date

from ..model.procedure import Procedure
from .asked import Asked
from .surroundings import Around
from .yaml_text import Data

_WHO = "TODO: say which qualification is needed"


def head(asked: Asked, around: Around, today: date, isolation: Procedure | None) -> Data:
    """What is known of it; who may do it is taken from the isolation that it performs."""
    data: Data = {"format": "1", "id": f"{around.folder}/{asked.name}", "title": asked.title, "kind": asked.kind}
    if asked.system is not None:
        data["system"] = asked.system
    data["about"] = "TODO: say in two sentences what this is for and what the reader must know before."
    for key, words in (("trouble_codes", asked.codes), ("symptoms", asked.symptoms)):
        if words:
            data[key] = list(words)
    people = around.raw[isolation.id].get("people") if isolation is not None else None
    if people is not None:
        data["people"] = people
    elif around.rig.dangerous:
        data["people"] = {"at_least": "2", "who": _WHO}
    parts = [name for name in asked.touched if name in around.vehicle.parts]
    if asked.kind == "replacement" and parts:
        data["parts"] = [{"part": name, "count": "1"} for name in parts]
    data["revisions"] = [{"number": "1", "date": today.isoformat(), "why": "First issue"}]
    return data
