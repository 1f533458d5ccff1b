"""What lies on a circuit: its parts, the connectors at which they are parted, the covers over it."""

from ...model.vehicle import Circuit, Part, Vehicle
from .. import energy_words as words
from .shapes import LINE, WIDTH, Box, Drawing, Rect, Sheet, Sign

_PAD = 7.0
_TRUNK = 14.0
_PART = 78.0  # where the boxes of parts begin


def branches(vehicle: Vehicle, circuit: Circuit) -> Drawing | None:
    """The parts on a circuit with the connectors that part them, the covers over it, connectors on no part."""
    sheet = Sheet()
    on_it = {connector.id: connector for connector in words.connectors_on(vehicle, circuit)}
    parts, covers = words.parts_on(vehicle, circuit), words.covers_of(vehicle, circuit)
    held = {name for part in parts for name in part.connectors}
    loose = [connector for name, connector in on_it.items() if name not in held]
    if not (parts or covers or loose):
        return None
    stubs = []
    y = sheet.write("head", "On it", _TRUNK + 14, 4, 200, "quiet") + 4
    for part in parts:
        own = [name for name in part.connectors if name in on_it]
        stub, y = _branch(sheet, f"part:{part.id}", "part", y, _part_lines(part, circuit, own), bool(own))
        stubs.append(stub)
    for connector in loose:
        lines = [("", f"{connector.id} {connector.name}", "strong")]
        stub, y = _branch(sheet, f"connector:{connector.id}", "part", y, lines, True)
        stubs.append(stub)
    for part in covers:
        lines = [("", part.name, "strong"), ("live", "lays it bare when it is off", "")]
        stub, y = _branch(sheet, f"cover:{part.id}", "cover", y, lines, False)
        stubs.append(stub)
    sheet.wire("bar", (_TRUNK, 0), (_TRUNK, stubs[-1] + 7))
    return sheet.done(WIDTH, y)


def _part_lines(part: Part, circuit: Circuit, own: list[str]) -> list[tuple[str, str, str]]:
    lines = [("", part.name, "strong")]
    if own:
        lines.append(("", f"parted at {', '.join(own)}", ""))
    if part.sealed:
        lines.append(("", "sealed, never opened", ""))
    if circuit.id in part.exposes:
        lines.append(("live", "lays it bare when it is off", ""))
    return lines


def _branch(
    sheet: Sheet, of: str, look: str, y: float, lines: list[tuple[str, str, str]], plug: bool
) -> tuple[float, float]:
    """One branch off the trunk; gives the height of its stub and the y below it."""
    below, right = y + 5, WIDTH - 2
    for sign, text, text_look in lines:
        below = sheet.write(of, text, _PART + _PAD, below, right - _PART - 2 * _PAD, text_look, sign)
    below += 6
    sheet.boxes.append(Box(of, Rect(_PART, y, right - _PART, below - y), look))
    stub, middle = y + 5 + LINE / 2, (_TRUNK + 8 + _PART) / 2
    line = "cover" if look == "cover" else "stub"
    if plug:
        sheet.wire(line, (_TRUNK + 8, stub), (middle - 7, stub))
        sheet.wire(line, (middle + 7, stub), (_PART, stub))
        sheet.signs.append(Sign("plug", middle, stub))
    else:
        sheet.wire(line, (_TRUNK + 8, stub), (_PART, stub))
    return stub, below + 8
