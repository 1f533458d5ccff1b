"""`bayleaf draft --new-vehicle`: what is asked of a vehicle before its profile is drafted."""

from collections.abc import Mapping

from ..drafts.asked import as_said
from ..drafts.new_vehicle import ENERGIES, POINTS, VOLTS, AskedVehicle
from ..manual import Manual
from ..manual_files import RESERVED_FOLDER_NAMES
from ..quantities import Problem, Quantity, parse_quantity
from ._asking import ask, ask_until, choose
from ._writing import against_name
from .common import WrongCall


def asked_vehicle(
    folder: str, called: str | None, energies: tuple[str, ...], highest: tuple[str, ...], points: tuple[str, ...],
    manual: Manual,
) -> AskedVehicle:  # fmt: skip
    """All questions in their order; an option answers its own."""
    fault = against_name(folder, "folder", RESERVED_FOLDER_NAMES)
    if fault is not None:
        raise WrongCall(fault)
    path = manual.folder / "procedures" / folder / "vehicle.yml"
    if path.exists():
        raise WrongCall(f"{folder} is there already: {path}. Nothing is overwritten.")
    name = as_said(called or ask("How is the vehicle called, with make and type", "--called"))
    what = "What in it holds energy?"
    found = choose(what, "--energy", ENERGIES, energies, many=True, somebody=True)
    if not found:
        raise WrongCall("a vehicle without any energy needs no profile; name at least its 12 V supply with --energy")
    volts = _highest(highest, found)
    what = "Which of these does it have, to take energy off?"
    offered = {point: words[0] for point, words in POINTS.items()}
    return AskedVehicle(folder, name, found, volts, choose(what, "--point", offered, points, many=True))


def _highest(given: tuple[str, ...], energies: tuple[str, ...]) -> Mapping[str, str]:
    """The highest voltage of each electrical circuit, where it is known."""
    found: dict[str, str] = {}
    for one in given:
        circuit, equals, volts = one.partition("=")
        if not equals or circuit not in energies or circuit not in VOLTS:
            raise WrongCall(f"--highest takes a circuit and its voltage, such as traction=410V, not {one}")
        fault = _against(circuit, volts)
        if fault is not None:
            raise WrongCall(f"--highest {one}: {fault}")
        found[circuit] = _written(volts)
    for circuit in energies:
        if circuit in VOLTS and not given:
            question = f"Highest voltage of: {ENERGIES[circuit].split(',')[0]} (empty if not known)"
            answer = ask_until(question, "--highest", lambda text, own=circuit: _against(own, text), "")  # type: ignore[misc]
            if answer:
                found[circuit] = _written(answer)
    return found


def _against(circuit: str, text: str) -> str | None:
    """What is said against a voltage: that it is none, or none of such a circuit."""
    if not text:
        return None
    volts = _volts(text)
    if isinstance(volts, Problem):
        return f"{text} is no voltage, such as 410 V"
    lowest, most = VOLTS[circuit]
    if not lowest < volts.si <= most:
        return f"{text} is no highest voltage of this: more than {lowest} V and at most {most} V"
    return None


def _volts(text: str) -> Quantity | Problem:
    return parse_quantity(f"{text} V" if text.replace(".", "").replace(",", "").isdecimal() else text, "voltage")


def _written(text: str) -> str:
    volts = _volts(text)
    assert isinstance(volts, Quantity)
    return str(volts)
