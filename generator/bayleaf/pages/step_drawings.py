"""The drawings of a step: where is probed, in what order bolts are tightened, how the voltage falls while one waits.

They depend on the step and on the vehicle alone, so that a step that stands on many pages is drawn once.
"""

from collections.abc import Iterator
from functools import lru_cache

from markupsafe import Markup

from ..model import actions
from ..model.actions import Pair
from ..model.contact import Contact
from ..model.procedure import Step
from ..model.vehicle import Circuit, Connector, Pin
from ..safety.wait import Wait, required_wait, time_to
from .drawings.bolt_order import Bolts, bolt_order, order_words
from .drawings.connector_face import Face, Probe, connector_face, face_words
from .drawings.discharge_curve import discharge_curve, time_words
from .drawings.shapes import svg
from .naming import Naming
from .show import plain

#: What the schema says of a face that does not say from where it is seen.
_SEEN_FROM = "mating side of the cable half"
_READING = 5.0  # the limit of the reading that follows a wait, as in the briefing


def probed_pairs(action: actions.Action, naming: Naming) -> tuple[Pair, ...]:
    """The pairs at which a step probes, in the order of their numbers: its own, else the test points of the circuit."""
    if not isinstance(action, actions.Measure | actions.ProveDead | actions.Discharge):
        return ()
    if action.pairs or not isinstance(action, actions.ProveDead):
        return action.pairs
    found = naming.find(action.circuit)
    points = found.element.dead_at if found is not None and found.kind == "circuit" else ()
    return tuple(point.pair for point in points)


def probe_drawings(step: Step, naming: Naming) -> Markup:
    """The face of each connector at which a step probes."""
    pairs = probed_pairs(step.action, naming)
    names = dict.fromkeys(contact.connector for pair in pairs for contact in pair if not contact.is_chassis)
    return Markup("").join(_drawn_face(face_of(name, pairs, naming)) for name in names)


def step_drawings(step: Step, naming: Naming) -> Markup:
    """What is drawn below the rows of a step."""
    match step.action:
        case actions.Tighten() as tighten:
            return Markup("").join(_drawn_bolts(name, bolts) for name, bolts in bolts_of(tighten, naming))
        case actions.Wait() as wait:
            return Markup("").join(_curves(wait, naming))
    return Markup("")


def face_of(name: str, pairs: tuple[Pair, ...], naming: Naming) -> Face:
    """A connector with what a step probes of it."""
    connector = naming.vehicle.connectors.get(name) if naming.vehicle is not None else None
    numbers: dict[Contact, list[str]] = {}
    chassis = []
    for number, pair in enumerate(pairs, 1):
        own = [contact for contact in pair if contact.connector == name]
        for contact in dict.fromkeys(own):
            numbers.setdefault(contact, []).append(str(number))
        if own and any(contact.is_chassis for contact in pair):
            chassis.append(str(number))
    sides = list(dict.fromkeys(_side(contact, connector) for contact in numbers))
    probes = tuple(
        Probe(tuple(found), contact.pin, _pin_words(contact, connector, naming, len(sides) > 1))
        for contact, found in numbers.items()
    )
    return Face(
        naming.plain(name), connector.face if connector is not None else (),
        (connector.seen_from if connector is not None else None) or _SEEN_FROM,
        f"Probed at: {'; '.join(sides)}", probes, tuple(chassis),
    )  # fmt: skip


def _side(contact: Contact, connector: Connector | None) -> str:
    """The half that is probed: "device side, Studs of the inverter"."""
    if contact.side is None:
        return "both halves, mated"
    halves = connector.halves if connector is not None else None
    half = f", {halves[0 if contact.side == 'device' else 1]}" if halves else ""
    return f"{contact.side} side{half}"


def _pin_words(contact: Contact, connector: Connector | None, naming: Naming, says_side: bool) -> str:
    """What a pin is: "HV+, orange, Traction circuit"."""
    pin = connector.pins.get(contact.pin) if connector is not None and contact.pin is not None else None
    parts = [pin.signal, pin.colour or "", _circuit(pin, contact, naming)] if pin is not None else []
    return ", ".join(filter(None, (*parts, _side(contact, connector) if says_side else "")))


def _circuit(pin: Pin, contact: Contact, naming: Naming) -> str:
    both = {"device": [pin.device_circuit], "cable": [pin.cable_circuit]}.get(
        contact.side or "", [pin.device_circuit, pin.cable_circuit]
    )
    return " / ".join(dict.fromkeys(naming.plain(name) for name in both if name))


@lru_cache(maxsize=4096)
def _drawn_face(face: Face) -> Markup:
    """The drawing; the same test points stand in many procedures."""
    return _figure(svg(connector_face(face), None, f"Probe points at {face.name}", face_words(face)))


def bolts_of(tighten: actions.Tighten, naming: Naming) -> Iterator[tuple[str, Bolts]]:
    """The fasteners of a step whose bolts have an order, with what they are called."""
    for name in tighten.fasteners if not tighten.described and naming.vehicle is not None else ():
        fastener = naming.vehicle.fasteners.get(name) if naming.vehicle is not None else None
        if fastener is not None and fastener.order is not None:
            yield naming.plain(name), Bolts(fastener.order, fastener.count, fastener.passes, plain(fastener.torque))


@lru_cache(maxsize=1024)
def _drawn_bolts(name: str, bolts: Bolts) -> Markup:
    drawing = bolt_order(bolts)
    if drawing is None:
        return Markup("")
    return _figure(svg(drawing, None, f"Order of tightening: {name}", order_words(bolts)))


def _curves(wait: actions.Wait, naming: Naming) -> Iterator[Markup]:
    """The curve of each circuit that is waited for and stores charge, with the time that is waited."""
    waited = float(wait.time.si) if wait.time is not None else 0.0
    for name in wait.what_for:
        found = naming.find(name)
        if found is not None and found.kind == "circuit":
            yield circuit_curve(found.element, waited)


def circuit_curve(circuit: Circuit, waited: float = 0.0) -> Markup:
    """The curve of a circuit, with the seconds that are waited for it; nothing where its figures are not known."""
    if circuit.stored is None:
        return Markup("")
    required = required_wait(circuit)
    levels = tuple(dict.fromkeys((required.end, _READING)))
    falls = [(time_to(circuit, volts), volts) for volts in levels]
    marks = [(seconds, f"{volts:g}\u00a0V at worst") for seconds, volts in falls if seconds]
    if waited:
        marks.append((waited, "waited here"))
    return _drawn_curve(circuit.name, required, tuple(marks), levels)


@lru_cache(maxsize=1024)
def _drawn_curve(
    name: str, wait: Wait, marks: tuple[tuple[float, str], ...], levels: tuple[float, ...]
) -> Markup:  # fmt: skip
    drawing = discharge_curve(wait, marks, levels)
    if drawing is None:
        return Markup("")
    told = "; ".join(f"{time_words(seconds)}: {words}" for seconds, words in sorted(marks))
    words = f"{name}, if nothing else discharges it. The wait is no proof."
    return _figure(svg(drawing, None, f"Discharge of {name}", told), words)


def _figure(picture: Markup, caption: str = "") -> Markup:
    """A drawing in a step; the search finds its words in the step already."""
    words = Markup("<figcaption>{}</figcaption>").format(caption) if caption else ""
    return Markup('<figure class="bl-drawing" data-search-exclude>{}{}</figure>').format(words, picture)
