"""The energy map of a circuit: where energy comes from, where it is taken off, what stays, what lies on it.

The ways from a source are drawn as current sees them, with every isolation point open. Several sets of points are
several gaps **one behind the other**: opening either interrupts. Points of one set that only together take the source
off are gaps **beside each other**: while one is closed, the other does nothing. Drawn the other way round, two gaps in
a row would tell the reader that one of them is enough where both are needed.

`ways` lays out; `energy_map` writes what it gives as SVG.
"""

from collections.abc import Iterator

from markupsafe import Markup

from ...model.vehicle import Circuit, Source, Vehicle
from .. import energy_words as words
from ..show import capital
from .circuit_parts import branches
from .shapes import LINE, WIDTH, Box, Drawing, Gap, Rect, Sheet, svg

_PAD = 7.0
_SOURCE = 114.0  # width of the box of a source: "Compressor" in one line
_BAR = 16.0
_FRAME = 9.0  # between the frame of a sealed part and what is in it


def energy_map(vehicle: Vehicle, circuit: Circuit, key: str) -> Markup:
    """The drawing of one circuit as inline SVG: the ways into it, and below what lies on it.

    Two pictures that join, so that print can break the page between them. `key` is their own on it.
    """
    upper = svg(ways(vehicle, circuit), key, f"Energy map: {circuit.name}", description(vehicle, circuit))
    lower = branches(vehicle, circuit)
    if lower is None:
        return upper
    names = [part.name for part in (*words.parts_on(vehicle, circuit), *words.covers_of(vehicle, circuit))]
    said = "; ".join(names) or "connectors only"
    return upper + svg(lower, f"{key}:parts", f"What lies on it: {circuit.name}", said)


def description(vehicle: Vehicle, circuit: Circuit) -> str:
    """The drawing in one sentence for each source."""
    said = [" ".join((words.energy_words(circuit) + ".", words.class_words(circuit))).strip()]
    for source in words.fed_by(circuit):
        if words.is_fixed(source):
            said.append(f"{words.source_words(source)} cannot be taken off")
            continue
        sets = [" together with ".join(words.point_words(vehicle, one) for one in way) for way in source.taken_off_by]
        said.append(f"{words.source_words(source)} is taken off at {', or at '.join(filter(None, sets))}")
    return ". ".join(said) + "."


class _Ways:
    """Lays out the sources of one circuit from the top down, and the circuit below them."""

    def __init__(self, vehicle: Vehicle, circuit: Circuit) -> None:
        self.vehicle, self.circuit = vehicle, circuit
        self.sheet = Sheet()
        part = vehicle.parts.get(circuit.sealed_in or "")
        self.sealed_in = f"Inside {part.name}: sealed, never opened" if part else ""
        if circuit.sealed_in and not part:
            self.sealed_in = f"Inside {circuit.sealed_in}, which is not in the profile"
        #: A circuit that only its own cells feed lies in its part with all that feeds it.
        fed = words.fed_by(circuit)
        self.whole = bool(self.sealed_in) and bool(fed) and all(words.is_fixed(one) for one in fed)
        inset = _FRAME if self.whole else 0.0
        self.left, self.right = 2 + inset, WIDTH - 2 - inset
        self.bar = self.right - (0.0 if self.whole or not self.sealed_in else _FRAME) - 6 - _BAR
        self.near, self.far = self.left + _SOURCE + 10, self.bar - 12
        self.first: float | None = None  # where the bar begins

    def lay_out(self) -> Drawing:
        """The whole drawing."""
        y = 2.0
        if self.whole:
            y = self._frame_title(y)
        y = self._head(y)
        for source in words.fed_by(self.circuit):
            y = self._lane(source, y) + 12
        y = self._other_lanes(y)
        if self.first is None:
            y = self.sheet.write("none", "No source: the profile states that nothing feeds it", self.left, y, 220) + 12
        if self.sealed_in and not self.whole:
            top, y = y, self._frame_title(y)
            bottom = self._circuit(y, _FRAME) + _FRAME
            self._frame(top, bottom)
            end = bottom
        else:
            end = self._circuit(y, 0)
            if self.whole:
                end += _FRAME
                self._frame(2, end)
        return self.sheet.done(WIDTH, end + 2)

    def _head(self, y: float) -> float:
        self.sheet.write("head", "From", self.left, y, _SOURCE, "quiet")
        self.sheet.write("head", "Opened at", self.near, y, self.far - self.near, "quiet")
        return y + LINE + 5

    def _frame_title(self, y: float) -> float:
        return self.sheet.write("sealed", self.sealed_in, 2 + _FRAME, y + _FRAME, WIDTH - 60, "strong") + 6

    def _frame(self, top: float, bottom: float) -> None:
        of = f"sealed:{self.circuit.sealed_in}"
        self.sheet.boxes.insert(0, Box(of, Rect(2, top, WIDTH - 4, bottom - top), "sealed"))

    def _into_bar(self, y: float) -> None:
        self.first = y if self.first is None else min(self.first, y)

    def _source_box(self, of: str, name: str, y: float, rung: float, look: str = "source") -> float:
        """The box of a source, at least so high that its line leaves it at the rung; gives its lower edge."""
        below = self.sheet.write(of, name, self.left + _PAD, y + 6, _SOURCE - 2 * _PAD, "strong") + 7
        below = max(below, rung + 14)
        self.sheet.boxes.append(Box(of, Rect(self.left, y, _SOURCE, below - y), look))
        return below

    def _lane(self, source: Source, y: float) -> float:
        """One source with its way into the circuit; gives the y below it."""
        of = f"source:{source.name}"
        if words.is_fixed(source):
            why = "Live at all times" if source.kind == "never" else "No isolation point is stated"
            return self._plain_lane(of, words.source_words(source), "never", y, [
                ("stop", "Cannot be taken off", "strong"), ("", why, ""),
            ])  # fmt: skip
        sets = [way for way in source.taken_off_by if way]
        rung, below = self._series(of, sets, y)
        return max(below, self._source_box(of, words.source_words(source), y, rung))

    def _series(self, of: str, sets: list[tuple[str, ...]], y: float) -> tuple[float, float]:
        """The sets one behind the other, from the box of the source into the bar.

        Each further set is reached by a line back to the left. Gives the height of the first gap, and the y below all.
        """
        first, out = 0.0, 0.0
        for index, way in enumerate(sets):
            last, behind = index == len(sets) - 1, y
            if index:
                y = (
                    self.sheet.write(of, "or, instead, at", self.near + 8, y + 3, self.far - self.near - 16, "quiet")
                    + 1
                )
            rungs, y = self._set(of, way, y, last)
            if index:
                corners = ((self.far, behind), (self.near, behind))
                self.sheet.wire("live", (self.far, out), *corners, (self.near, rungs[0]))
            else:
                first = rungs[0]
                self.sheet.wire("live", (self.left + _SOURCE, first), (self.near, first))
            if len(rungs) > 1:
                self.sheet.wire("live", (self.near, rungs[0]), (self.near, rungs[-1]))
                self.sheet.wire("off" if last else "live", (self.far, rungs[0]), (self.far, rungs[-1]))
            out = rungs[-1]
        self.sheet.wire("off", (self.far, out), (self.bar, out))
        self._into_bar(out)
        return first, y

    def _set(self, of: str, way: tuple[str, ...], y: float, last: bool) -> tuple[list[float], float]:
        """The points of one set beside each other; gives the height of each, and the y below them."""
        if len(way) > 1:
            said = "only both together:" if len(way) == 2 else f"only all {len(way)} together:"
            y = self.sheet.write(of, said, self.near + 8, y, self.far - self.near - 14, "quiet") + 1
        rungs = []
        for name in way:
            rung = y + 15
            rungs.append(rung)
            point, x = f"point:{name}", self.near + 30
            self.sheet.gaps.append(Gap(point, x, rung))
            self.sheet.wire("live", (self.near, rung), (x - 12, rung))
            self.sheet.wire("off" if last else "live", (x + 12, rung), (self.far, rung))
            y = self._point(point, name, rung + 6) + 6
        return rungs, y

    def _point(self, of: str, name: str, y: float) -> float:
        """Name of a point and what must be known at it."""
        left, width = self.near + 8, self.far - self.near - 14
        y = self.sheet.write(of, words.point_words(self.vehicle, name), left, y, width, "strong")
        for sign, text in words.point_notes(self.vehicle, name):
            y = self.sheet.write(of, text, left, y + 2, width, "" if sign else "quiet", sign)
        return y

    def _plain_lane(self, of: str, name: str, look: str, y: float, notes: list[tuple[str, str, str]]) -> float:
        """A source with a line that nothing interrupts."""
        rung = y + 15
        self.sheet.wire(look, (self.left + _SOURCE, rung), (self.bar, rung))
        self._into_bar(rung)
        below = rung + 8
        for sign, text, text_look in notes:
            below = self.sheet.write(of, text, self.near, below, self.far - self.near, text_look, sign) + 2
        return max(below, self._source_box(of, name, y, rung, "unknown" if look == "unknown" else "source"))

    def _other_lanes(self, y: float) -> float:
        """What feeds the circuit without being a source of its own in the profile, and what is not stated."""
        turning = self.circuit.rotation
        if turning is not None:
            said = [("live", "No isolation point: keep it from turning", "strong")]
            said += [("", capital(text), "") for text in words.turning_words(turning)]
            y = self._plain_lane("turning", f"Turning with the {turning.turns_with}", "turned", y, said) + 12
        missing = words.unstated_sources(self.circuit)
        if missing:
            y = self._plain_lane("unstated", f"Not stated: {', '.join(missing)}", "unknown", y, [
                ("stop", "Counts as there, and as not to be taken off", "strong"),
            ]) + 12  # fmt: skip
        elif not self.circuit.sources:
            y = self._plain_lane("unstated", "No source stated", "unknown", y, [
                ("stop", "Counts as fed, and as not to be taken off", "strong"),
            ]) + 12  # fmt: skip
        return y

    def _circuit(self, y: float, inset: float) -> float:
        """The circuit itself, joined to the bar; gives its lower edge."""
        of = f"circuit:{self.circuit.id}"
        left, right = self.left + inset, self.right - inset
        below = y + 8
        for sign, text, look in self._circuit_lines():
            below = self.sheet.write(of, text, left + 9, below, right - left - 18, look, sign) + 4
        below += 4
        self.sheet.boxes.append(Box(of, Rect(left, y, right - left, below - y), "circuit"))
        if self.first is not None:
            middle = self.bar + _BAR / 2
            self.sheet.wire("bar", (middle, self.first - 7), (middle, y))
        return below

    def _circuit_lines(self) -> Iterator[tuple[str, str, str]]:
        circuit = self.circuit
        yield "", circuit.name, "strong"
        yield "", words.energy_words(circuit), ""
        if circuit.energy == "electrical":
            yield ("live" if circuit.is_class_b else ""), words.class_words(circuit), "strong"
        if circuit.lock:
            yield "", "Must be locked out", "strong"
        for text in words.stored_words(circuit):
            yield "", text, "strong" if text.startswith("Wait") else ""
        safe = words.safe_words(circuit)
        if safe:
            yield "", f"Safe to open when: {safe}", ""
        if circuit.dead_at:
            yield "", "Prove dead between:", "quiet"
            for pairs, access in _by_access(self.vehicle, circuit):
                yield "", pairs + (f" (behind: {access})" if access else ""), ""
        elif circuit.energy == "electrical":
            yield (
                "",
                "Sealed: no point to measure at" if self.sealed_in else "No point to measure at is stated",
                "quiet",
            )


def _by_access(vehicle: Vehicle, circuit: Circuit) -> Iterator[tuple[str, str]]:
    """The pairs at which a circuit is proved dead, by the cover that comes off for them."""
    found: dict[str, list[str]] = {}
    for point in circuit.dead_at:
        pair = " – ".join(str(contact) for contact in point.pair).replace(" ", "\u00a0")
        found.setdefault(point.access or "", []).append(pair)
    for access, pairs in found.items():
        cover = vehicle.parts.get(access)
        yield "; ".join(pairs), cover.name if cover else access


def ways(vehicle: Vehicle, circuit: Circuit) -> Drawing:
    """The sources of a circuit, the isolation points between, and the circuit."""
    return _Ways(vehicle, circuit).lay_out()
