"""The rows of facts under a step: what is touched, with what, where, how far."""

from markupsafe import Markup

from ..model import actions
from ..model.common import Conditions
from .energy_words import live_words, stays
from .naming import Naming
from .show import both, capital, plain, screws


def condition_words(conditions: Conditions, naming: Naming) -> Markup:
    """Conditions as words for the reader."""
    parts: list[Markup | str] = []
    if conditions.mode:
        parts.append(
            f"the vehicle is {'in the mode ' if conditions.mode in ('ignition', 'ready') else ''}{conditions.mode}"
        )
    for key, words in (
        ("unplugged", "unplugged"), ("plugged", "plugged in"), ("open", "disconnected"),
        ("closed", "connected"), ("removed", "off"), ("fitted", "fitted"),
    ):  # fmt: skip
        names = getattr(conditions, key)
        if names:
            parts.append(Markup("{} {} {}").format(naming.links(names), "is" if len(names) == 1 else "are", words))
    if conditions.load:
        parts.append(f"load: {conditions.load}")
    return Markup("; ").join(parts)


def action_rows(action: actions.Action, naming: Naming) -> list[tuple[str, Markup | str]]:
    """The rows that belong to the action itself."""
    rows: list[tuple[str, Markup | str]] = []

    def add(label: str, value: Markup | str) -> None:
        if value:
            rows.append((label, value))

    match action:
        case actions.Disconnect(points) | actions.Reconnect(points) | actions.Secure(points) | actions.Release(points):
            rows += _point_rows(points, naming, isinstance(action, actions.Secure))
        case actions.Unplug(names) | actions.Plug(names) | actions.Remove(names) | actions.Refit(names, _):
            add("Where", _locations(names, naming))
        case actions.Tighten() as tighten if not tighten.described:
            rows += _fastener_rows(tighten.fasteners, naming)
        case actions.Tighten() as tighten:
            add(
                "Thread",
                " ".join(filter(None, (tighten.size, tighten.property_class and f"class {tighten.property_class}"))),
            )
        case actions.Measure() as measured:
            rows += _measure_rows(measured, naming)
        case actions.ProveDead() as proof:
            add("With", naming.tool(proof.using))
            if proof.proved_before:
                add(
                    "Tester",
                    f"prove it before on: {naming.tool(proof.proved_before)}; "
                    f"after on: {naming.tool(proof.proved_after)}",
                )
            add("Test points", _test_points(proof, naming))
        case actions.ProveSafe(circuit, using, limit):
            add("With", naming.tool(using))
            if limit is not None and limit.quantity == "voltage":
                add("Kind", "voltage (DC)")  # what a sensor tells; common practice
            found = naming.find(circuit)
            if found is not None and limit is None:
                add(
                    "Safe",
                    "; ".join(f"{key.replace('_', ' ')} {both(value)}" for key, value in found.element.safe),
                )
        case actions.Discharge() as discharge:
            add("With", naming.tool(discharge.using) + (f", {discharge.means}" if discharge.means else ""))
        case actions.Drain(_, amount, _):
            add("Amount", both(amount))
        case actions.Fill(_, amount, medium) if amount and not action.is_pressed:
            add("With", medium or "")
        case actions.Command(_, _, energises) if energises:
            add("Makes live", naming.links(energises))
        case actions.Energise(_, means):
            add("By", means or "")
    return rows


def _point_rows(points: tuple[str, ...], naming: Naming, securing: bool) -> list[tuple[str, Markup | str]]:
    rows: list[tuple[str, Markup | str]] = []
    for name in points:
        found = naming.find(name)
        if found is None or found.kind != "isolation point":
            continue
        point, label = found.element, Markup("{}").format(naming.link(name))
        if securing and point.secure_with:
            rows.append(("Secure with", Markup("{}: {}").format(label, point.secure_with)))
        elif not securing:
            if point.location:
                rows.append(("Where", Markup("{}: {}").format(label, point.location)))
            rows += [(capital(stays(point)), live_words(live, point)) for live in point.leaves_live]
    return rows


def _locations(names: tuple[str, ...], naming: Naming) -> Markup | str:
    places = []
    for name in names:
        found = naming.find(name)
        location = getattr(found.element, "location", None) if found else None
        if location:
            places.append(Markup("{}: {}").format(naming.link(name), location) if len(names) > 1 else location)
    return Markup("; ").join(places)


def _fastener_rows(names: tuple[str, ...], naming: Naming) -> list[tuple[str, Markup | str]]:
    rows: list[tuple[str, Markup | str]] = []
    for name in names:
        found = naming.find(name)
        if found is None or found.kind != "fastener":
            continue
        fastener = found.element
        text = both(fastener.torque)
        if fastener.then_turn:
            text += f", then turn {plain(fastener.then_turn)}"
        what = screws(fastener)
        rows.append(
            (
                "Torque",
                Markup('<strong class="bl-figure">{}</strong> {}').format(text, f"({what})" if what else ""),
            )
        )
        notes = [
            fastener.order and f"tighten {fastener.order}", fastener.passes and f"in {fastener.passes} passes",
            fastener.one_use and "use new ones", fastener.yields and "tightened into yield",
        ]  # fmt: skip
        if any(notes):
            rows.append(("Note", capital("; ".join(note for note in notes if note))))
    return rows


_TAKE = {
    "lowest": "the lowest reading",
    "highest": "the highest reading",
    "steady": "the steady reading",
    "each": "every reading",
}


def _measure_rows(measured: actions.Measure, naming: Naming) -> list[tuple[str, Markup | str]]:
    kind = f"{measured.quantity}{f' ({measured.current_kind.upper()})' if measured.current_kind else ''}"
    rows: list[tuple[str, Markup | str]] = [("Kind", capital(kind))]
    if measured.around:
        rows.append(("Clamp round", naming.link(measured.around)))
    if measured.where:
        rows.append(("At", naming.links(measured.where)))
    for label, value in (
        ("With", naming.tool(measured.using)), ("Test voltage", plain(measured.test_voltage)),
        ("Test current", plain(measured.test_current)), ("Read after", plain(measured.read_after)),
        ("Take", _TAKE.get(measured.take or "", "")),
        ("Afterwards", measured.discharged and f"discharge, read {plain(measured.discharged)} at the same points"),
    ):  # fmt: skip
        if value:
            rows.append((label, value))
    return rows


def _test_points(proof: actions.ProveDead, naming: Naming) -> Markup | str:
    if proof.pairs:
        return ""
    found = naming.find(proof.circuit)
    points = found.element.dead_at if found is not None and found.kind == "circuit" else ()
    mark = Markup('<span class="bl-callout">{}</span> {}')
    return Markup("<br>").join(mark.format(number, naming.pair(point.pair)) for number, point in enumerate(points, 1))
