"""Small vehicles for the tests of drawings, and what can be asked of a drawing that is laid out."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, pairwise, product

from bayleaf.model.vehicle import Circuit, IsolationPoint, LivePlace, Part, Source, Vehicle, Voltage
from bayleaf.pages.drawings.shapes import Drawing, Rect
from bayleaf.quantities import Quantity, parse_quantity


def volts(text: str) -> Quantity:
    """A quantity as an author writes it."""
    found = parse_quantity(text)
    assert isinstance(found, Quantity)
    return found


def circuit(**changes: object) -> Circuit:
    """A fused 12 V circuit that its battery feeds, changed."""
    plain = Circuit(
        at=(), id="supply", name="Supply", energy="electrical", voltage=Voltage("dc", volts("12 V"), volts("15 V")),
        sources=(Source((), "battery", "points", (("pole",),)),), fused=True, lock=False, rotation=None, monitor=None,
        stored=None, dead_at=(), sealed_in=None, safe=(), location=None,
    )  # fmt: skip
    return replace(plain, **changes)


def point(ident: str, *live: LivePlace, **changes: object) -> IsolationPoint:
    """An isolation point that can be secured, changed."""
    plain = IsolationPoint((), ident, f"Point {ident}", "switch", "conductor", live, None, (), None, "padlock", None)
    return replace(plain, **changes)


def vehicle(one: Circuit, *points: IsolationPoint, parts: tuple[Part, ...] = ()) -> Vehicle:
    """A vehicle with one circuit."""
    return Vehicle(
        "vehicle.yml", "van", "Van", circuits={one.id: one}, isolation_points={item.id: item for item in points},
        parts={part.id: part for part in parts},
    )  # fmt: skip


def part(ident: str, **changes: object) -> Part:
    """A part on the circuit, changed."""
    return replace(Part((), ident, ident.title(), ("supply",), (), (), False, None, None, None, (), None), **changes)


def texts(drawing: Drawing, of: str) -> str:
    """All that is written of one thing, its lines joined (also behind a hyphen), no-break spaces as blanks."""
    found = " ".join(" ".join(text.lines) for text in drawing.texts if text.of == of)
    return found.replace("\u00a0", " ").replace("- ", "-")


def segments(drawing: Drawing) -> Iterator[tuple[str, tuple[float, float], tuple[float, float]]]:
    """The straight pieces of every line."""
    for wire in drawing.wires:
        for start, end in pairwise(wire.points):
            yield wire.look, start, end


def joined(drawing: Drawing) -> list[set[tuple[float, float]]]:
    """The pieces of line that touch each other; a gap lies between two of them. What current can reach."""
    groups: list[list[tuple[tuple[float, float], tuple[float, float]]]] = []
    for _, start, end in segments(drawing):
        touching = [group for group in groups if any(_touch((start, end), other) for other in group)]
        groups = [group for group in groups if group not in touching]
        groups.append([(start, end), *(piece for group in touching for piece in group)])
    return [{end for piece in group for end in piece} for group in groups]


def _touch(one: tuple, other: tuple) -> bool:
    """Whether two level or upright pieces have a point in common."""
    (ax, bx), (ay, by) = sorted((one[0][0], one[1][0])), sorted((one[0][1], one[1][1]))
    (cx, dx), (cy, dy) = sorted((other[0][0], other[1][0])), sorted((other[0][1], other[1][1]))
    return max(ax, cx) <= min(bx, dx) + 0.01 and max(ay, cy) <= min(by, dy) + 0.01


def carries(drawing: Drawing, source: str, closed: set[str]) -> bool:
    """Whether current gets from a source to the circuit when just these gaps are closed."""
    groups = joined(drawing)

    def group_at(x: float, y: float) -> int:
        return next(i for i, group in enumerate(groups) if any(abs(x - a) + abs(y - b) < 0.01 for a, b in group))

    links = [
        {group_at(gap.x - 12, gap.y), group_at(gap.x + 12, gap.y)}
        for gap in drawing.gaps
        if gap.of.removeprefix("point:") in closed
    ]
    box = next(box.rect for box in drawing.boxes if box.of == f"source:{source}")
    reached = {
        i
        for i, group in enumerate(groups)
        if any(abs(x - box.right) < 0.01 and box.y < y < box.bottom for x, y in group)
    }
    for _ in links:
        for link in links:
            if link & reached:
                reached |= link
    bar = next(wire for wire in drawing.wires if wire.look == "bar").points[0][0] - 8
    return any(abs(x - bar) < 0.01 for i in reached for x, _ in groups[i])


def faults_of(drawing: Drawing) -> list[str]:
    """What overlaps, sticks out, or is crossed by a line."""
    sheet = Rect(0, 0, drawing.width, drawing.height)
    frames = [box for box in drawing.boxes if box.look == "sealed"]
    boxes = [box for box in drawing.boxes if box not in frames]
    found = [f"{box.of} sticks out" for box in drawing.boxes if not sheet.holds(box.rect)]
    found += [f"{text.lines} sticks out" for text in drawing.texts if not sheet.holds(text.rect)]
    found += [f"{a.of} on {b.of}" for a, b in combinations(boxes, 2) if a.rect.overlaps(b.rect)]
    found += [f"{a.lines} on {b.lines}" for a, b in combinations(drawing.texts, 2) if a.rect.overlaps(b.rect)]
    for text, box in product(drawing.texts, boxes):
        if text.rect.overlaps(box.rect) and not (text.of == box.of and box.rect.holds(text.rect)):
            found.append(f"{text.lines} across the edge of {box.of}")
    for look, (ax, ay), (bx, by) in segments(drawing):
        half = 8.0 if look == "bar" else 0.5
        line = Rect(min(ax, bx) - (half if ax == bx else 0), min(ay, by) - (half if ay == by else 0),
                    abs(ax - bx) + (2 * half if ax == bx else 0), abs(ay - by) + (2 * half if ay == by else 0))  # fmt: skip
        found += [f"line through {text.lines}" for text in drawing.texts if line.overlaps(text.rect)]
        found += [f"line through {box.of}" for box in boxes if line.overlaps(box.rect)]
    return found
