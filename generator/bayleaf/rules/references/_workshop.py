"""What the workshop has, and how a name that it does not have is worded."""

from ...diagnostics.place import Path
from ...loading.shape_words import nearest
from ...model.workshop import Workshop
from ..case import Case
from ..fault import Fault, Spot
from ._meant import in_brackets

#: The sections of the workshop file, with the word for one of their elements.
_SECTIONS = {
    "instruments": "an instrument",
    "proving_units": "a proving unit",
    "tools": "a tool",
    "protection": "a piece of protection",
}


def not_in_workshop(name: str, section: str, at: Path, case: Case) -> Fault | None:
    """The fault of a name that is not in a section of the workshop file.

    None if it is there, or may be: a file that cannot be read in every part may hold it.
    """
    workshop = case.workshop
    if workshop is None or name in getattr(workshop, section):
        return None
    for other, kind in _SECTIONS.items():
        if name in getattr(workshop, other):
            meant = _SECTIONS[section]
            spot = Spot(workshop.file, (other, name), f"{kind} of this name", key=True)
            message = f"`{name}` is {kind}, but {meant} is meant here"
            return Fault(at, message, help=_help(name, section, workshop, case), see=(spot,))
    if workshop.broken:
        return None
    noun = _SECTIONS[section].partition(" ")[2]
    return Fault(at, f"the workshop has no {noun} `{name}`", help=_help(name, section, workshop, case))


def _help(name: str, section: str, workshop: Workshop, case: Case) -> str:
    there = getattr(workshop, section)
    several = in_brackets(name, there)
    if several is not None:
        return several
    meant = nearest(name, there)
    if meant is not None:
        return f"did you mean `{meant}`?"
    folder, _, file = workshop.file.rpartition("/")
    if file not in case.outlook.entries(folder):
        return f"there is no workshop file yet: write `{workshop.file}`, and list it under `{section}`"
    if 0 < len(there) <= 8:
        return f"the workshop has: {', '.join(f'`{other}`' for other in there)}"
    return f"add it under `{section}` in `{workshop.file}`"
