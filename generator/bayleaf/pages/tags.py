"""What the tags of free pages stand for: a link, or the very drawing that another page has."""

from collections.abc import Callable, Iterator
from functools import cached_property
from typing import NamedTuple

from markupsafe import Markup

from ..manual import Manual
from ..model.free_page import ELEMENTS, Tag
from .drawings.energy_map import energy_map
from .flow_view import drawn_flow
from .step_drawings import circuit_curve, step_drawings
from .step_view import Performed, Steps
from .templating import link
from .vehicle_cards import connector_face


class LinkTo(NamedTuple):
    """A link: its words as plain text, its address relative to the root of the site."""

    words: str
    url: str


class Drawn(NamedTuple):
    """A drawing, complete and safe."""

    html: Markup


class Tags:
    """Looks up what the tags of a manual stand for."""

    def __init__(self, manual: Manual) -> None:
        self._manual = manual

    @cached_property
    def _performed(self) -> Performed:
        return Performed(self._manual)

    def shown(self, tag: Tag, base: str, key: str) -> LinkTo | Drawn | None:
        """What is put in the place of a tag; None where it leads nowhere, and then a finding says so.

        `base` leads from the page to the root of the site ("../"); `key` is the tag's own on its page.
        """
        form = tag.form
        if form is None:
            return None
        names = tuple(name.text for name in tag.names)
        if tag.word in ELEMENTS:
            return self._element(tag.word, *names)
        drawing = _DRAWINGS.get(tag.word)
        if drawing is None:
            return _LINKS[tag.word](self, *names)
        parts = tuple(drawing(self, names, base, key))
        return Drawn(Markup('<div class="bl-page bl-embed">{}</div>').format(Markup("").join(parts))) if parts else None

    def _vehicle(self, name: str) -> LinkTo | None:
        vehicle = self._manual.vehicles.get(name)
        return None if vehicle is None else LinkTo(vehicle.name, f"{name}/vehicle.html")

    def _element(self, kind: str, vehicle: str, name: str) -> LinkTo | None:
        naming = self._performed.naming(vehicle)
        found = naming.find(name)
        if found is None or found.id != name or found.kind != kind:
            return None
        return LinkTo(naming.plain(name), f"{vehicle}/vehicle.html#{name}")

    def _procedure(self, name: str) -> LinkTo | None:
        procedure = self._manual.procedures.get(name)
        return None if procedure is None else LinkTo(procedure.title, f"{name}.html")

    def _step(self, procedure: str, name: str) -> LinkTo | None:
        known = self._manual.procedures.get(procedure)
        step = known.step_named(name) if known is not None else None
        if known is None or step is None:
            return None
        return LinkTo(f"{known.title}, step {step.number}", f"{procedure}.html#{step.anchor}")

    def _code(self, name: str) -> LinkTo | None:
        return LinkTo(name, f"codes.html#{name}")

    def _rule(self, name: str) -> LinkTo | None:
        return LinkTo(name, f"rules/{name}.html")

    def _energy(self, names: tuple[str, ...], base: str, key: str) -> Iterator[Markup]:
        """The maps of all circuits of a vehicle, or of one; each with the way to the whole page."""
        vehicle = self._manual.vehicles.get(names[0])
        if vehicle is None:
            return
        url = f"{base}{names[0]}/energy.html"
        yield _title(url, f"Energy map, {vehicle.name}")
        yield Markup(
            '<p class="bl-embed-note">Every circuit counts as live and charged until it is proved dead. {}</p>'
        ).format(link(f"{url}#how-to-read-it", "How to read the map"))
        wanted = [one for one in vehicle.circuits.values() if one.id in (names[1:] or (one.id,))]
        panels = [
            Markup('<div class="bl-card bl-map"><p class="bl-embed-title">{}</p>{}</div>').format(
                link(f"{url}#{one.id}", one.name), energy_map(vehicle, one, f"{key}-{one.id}")
            )
            for one in wanted
        ]
        if panels:
            yield Markup('<div class="bl-map-panels">{}</div>').format(Markup("").join(panels))

    def _face(self, names: tuple[str, ...], base: str, key: str) -> Iterator[Markup]:
        vehicle, name = self._manual.vehicles.get(names[0]), names[1]
        connector = vehicle.connectors.get(name) if vehicle is not None else None
        if vehicle is not None and connector is not None and connector.face:
            url = f"{base}{names[0]}/vehicle.html"
            yield _title(f"{url}#{name}", f"{name} {connector.name}, {vehicle.name}")
            yield connector_face(connector)

    def _discharge(self, names: tuple[str, ...], base: str, key: str) -> Iterator[Markup]:
        """The curve of a circuit, or those of a step that waits, with the time that is waited there."""
        if "/" in names[0]:
            yield from self._of_step(names[0], names[1], base)
            return
        vehicle = self._manual.vehicles.get(names[0])
        circuit = vehicle.circuits.get(names[1]) if vehicle is not None else None
        curve = circuit_curve(circuit) if circuit is not None else None
        if vehicle is not None and circuit is not None and curve:
            yield _title(f"{base}{names[0]}/vehicle.html#{circuit.id}", f"{circuit.name}, {vehicle.name}")
            yield curve

    def _of_step(self, name: str, step_name: str, base: str) -> Iterator[Markup]:
        procedure, found = self._manual.procedures.get(name), self._step(name, step_name)
        step = procedure.step_named(step_name) if procedure is not None else None
        if procedure is not None and step is not None and found is not None:
            drawings = step_drawings(step, self._performed.naming(procedure.folder))
            if drawings:
                yield _title(base + found.url, found.words)
                yield drawings

    def _flow(self, names: tuple[str, ...], base: str, key: str) -> Iterator[Markup]:
        procedure = self._manual.procedures.get(names[0])
        if procedure is not None and procedure.steps:
            page = f"{base}{procedure.id}.html"
            views = Steps(procedure, self._performed.naming(procedure.folder), self._performed, None).views()
            yield _title(page, procedure.title)
            yield Markup(
                '<details class="bl-map-words bl-flow"><summary>The flow of the steps, drawn</summary>'
                '<div class="bl-flow-picture">{}</div></details>'
            ).format(drawn_flow(procedure, self._manual, views, page, key))


def _title(url: str, words: str) -> Markup:
    return Markup('<p class="bl-embed-title">{}</p>').format(link(url, words))


_LINKS: dict[str, Callable[..., LinkTo | None]] = {
    "vehicle": Tags._vehicle,
    "procedure": Tags._procedure,
    "step": Tags._step,
    "code": Tags._code,
    "rule": Tags._rule,
}
_DRAWINGS: dict[str, Callable[[Tags, tuple[str, ...], str, str], Iterator[Markup]]] = {
    "energy": Tags._energy,
    "face": Tags._face,
    "discharge": Tags._discharge,
    "flow": Tags._flow,
}
