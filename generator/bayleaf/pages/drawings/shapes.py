"""What a drawing is made of, as plain values with places, and the SVG that is written from them.

Every colour comes from a class of the style sheet, so that the drawing follows the light and the dark scheme and print.
No meaning hangs on colour: lines differ in thickness and dashes, signs in form, and words say the same.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from markupsafe import Markup, escape

from .wrapping import width_of, wrapped

#: Width of a drawing. On a phone of 390 px it is shown about 1:1, so that 13 units are 13 px.
WIDTH = 340.0
#: Size of the text and distance of its lines, in the units of the drawing.
SIZE = 13.0
LINE = 17.0
#: Looks of boxes that are circles, or longer with round ends.
_ROUND = frozenset({"callout", "bolt"})


class Rect(NamedTuple):
    """A rectangle; y grows downward."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The x of its right side."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The y of its lower side."""
        return self.y + self.height

    def overlaps(self, other: "Rect") -> bool:
        """Whether both have more than an edge in common."""
        return (
            self.x < other.right and other.x < self.right and self.y < other.bottom and other.y < self.bottom
        )  # fmt: skip

    def holds(self, other: "Rect") -> bool:
        """Whether the other lies wholly within it."""
        return (
            self.x <= other.x and other.right <= self.right and self.y <= other.y and other.bottom <= self.bottom
        )  # fmt: skip


class Text(NamedTuple):
    """Lines of text. `of` is what they belong to: `point:service-plug`."""

    of: str
    rect: Rect
    lines: tuple[str, ...]
    look: str = ""


class Box(NamedTuple):
    """A box; what is written in it is a text of its own."""

    of: str
    rect: Rect
    look: str


class Wire(NamedTuple):
    """A line through points; its look says what it carries."""

    points: tuple[tuple[float, float], ...]
    look: str


class Gap(NamedTuple):
    """An open switch in a wire, at its middle."""

    of: str
    x: float
    y: float


class Sign(NamedTuple):
    """A small sign at its middle: `live`, `stop`, `plug`, `join`; an arrow at its point: `down`, `left`, `right`."""

    kind: str
    x: float
    y: float


class Link(NamedTuple):
    """Where a tap on all that is drawn of one thing leads; `label` are its words in full."""

    of: str
    url: str
    label: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing that is laid out."""

    width: float
    height: float
    boxes: tuple[Box, ...] = ()
    texts: tuple[Text, ...] = ()
    wires: tuple[Wire, ...] = ()
    gaps: tuple[Gap, ...] = ()
    signs: tuple[Sign, ...] = ()
    links: tuple[Link, ...] = ()


@dataclass(slots=True)
class Sheet:
    """Where a drawing is put together."""

    boxes: list[Box] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    wires: list[Wire] = field(default_factory=list)
    gaps: list[Gap] = field(default_factory=list)
    signs: list[Sign] = field(default_factory=list)
    links: list[Link] = field(default_factory=list)

    def write(self, of: str, text: str, x: float, y: float, width: float, look: str = "", sign: str = "") -> float:
        """Lines of text below y, perhaps behind a sign; gives the y below them."""
        inset = 20.0 if sign else 0.0
        if sign:
            self.signs.append(Sign(sign, x + 7, y + LINE / 2))
        bold = look == "strong"
        lines = wrapped(text, width - inset, SIZE, bold)
        widest = max((width_of(line, SIZE, bold) for line in lines), default=0.0)
        self.texts.append(Text(of, Rect(x + inset, y, widest, LINE * len(lines)), lines, look))
        return y + LINE * len(lines)

    def label(self, of: str, text: str, rect: Rect, look: str = "") -> None:
        """One line about the middle of a place."""
        width = width_of(text, SIZE, look == "strong")
        place = Rect(rect.x + (rect.width - width) / 2, rect.y + (rect.height - LINE) / 2, width, LINE)
        self.texts.append(Text(of, place, (text,), f"mid {look}".strip()))

    def wire(self, look: str, *points: tuple[float, float]) -> None:
        """A line through these points."""
        self.wires.append(Wire(points, look))

    def done(self, width: float, height: float) -> Drawing:
        """The drawing."""
        return Drawing(
            width, height, tuple(self.boxes), tuple(self.texts), tuple(self.wires), tuple(self.gaps), tuple(self.signs),
            tuple(self.links),
        )  # fmt: skip


def svg(drawing: Drawing, key: str | None, title: str, text: str) -> Markup:
    """The drawing as inline SVG. `key` sets its title and description apart from others on the page; without one,
    for a drawing that is small and stands many times on a page, title and text are its label.
    """
    inside = _inside(drawing)
    if key is None:
        return Markup('<svg class="bl-map-drawing" viewBox="0 0 {} {}" role="img" aria-label="{}">{}</svg>').format(
            _n(drawing.width), _n(drawing.height), f"{title}: {text}", inside
        )
    return Markup(
        '<svg class="bl-map-drawing" viewBox="0 0 {width} {height}" role="{role}"'
        ' aria-labelledby="title:{key} text:{key}"><title id="title:{key}">{title}</title>'
        '<desc id="text:{key}">{text}</desc>{inside}</svg>'
    ).format(
        width=_n(drawing.width), height=_n(drawing.height), key=key, title=title, text=text,
        role="group" if drawing.links else "img",  # what lies in an image cannot be reached
        inside=inside,
    )  # fmt: skip


def svg_between(drawing: Drawing, top: float, height: float) -> Markup:
    """What of the drawing lies between two heights, without links, for who sees: it is shown as a whole elsewhere.

    What crosses an edge is cut by it.
    """
    bottom = top + height

    def is_there(upper: float, lower: float) -> bool:
        return upper < bottom and top < lower

    part = Drawing(
        drawing.width, height,
        tuple(one for one in drawing.boxes if is_there(one.rect.y, one.rect.bottom)),
        tuple(one for one in drawing.texts if is_there(one.rect.y, one.rect.bottom)),
        tuple(one for one in drawing.wires if is_there(*_heights(one))),
        tuple(one for one in drawing.gaps if is_there(one.y - LINE, one.y + LINE)),
        tuple(one for one in drawing.signs if is_there(one.y - LINE, one.y + LINE)),
    )  # fmt: skip
    return Markup('<svg class="bl-map-drawing" viewBox="0 {:g} {:g} {:g}" aria-hidden="true">{}</svg>').format(
        top, drawing.width, height, _inside(part)
    )


def _heights(wire: Wire) -> tuple[float, float]:
    heights = [y for _, y in wire.points]
    return min(heights) - 1, max(heights) + 1  # as thick as it is drawn


# Below, a part of a drawing is a plain text of HTML: a long page has thousands, and putting each together out of
# `Markup` took half the time of a page. Whatever an author wrote is escaped where it is put in.


def _inside(drawing: Drawing) -> Markup:
    linked = {link.of for link in drawing.links}
    parts = [_box(box) for box in drawing.boxes if box.of not in linked]
    parts += [_wire(wire) for wire in drawing.wires]
    parts += [_gap(gap) for gap in drawing.gaps]
    parts += [sign(one.kind, one.x, one.y) for one in drawing.signs]
    parts += [_text(one) for one in drawing.texts if one.of not in linked]
    parts += _links(drawing)
    return Markup("".join(parts))


def _links(drawing: Drawing) -> Iterator[str]:
    """What is drawn of each thing that leads somewhere, as a link."""
    inside: dict[str, list[str]] = {link.of: [] for link in drawing.links}
    for box in drawing.boxes:
        if box.of in inside:
            inside[box.of].append(_box(box))
    for text in drawing.texts:
        if text.of in inside:
            inside[text.of].append(_text(text))
    for link in drawing.links:
        yield f'<a href="{escape(link.url)}" aria-label="{escape(link.label)}">{"".join(inside[link.of])}</a>'


def symbol(kind: str) -> Markup:
    """One symbol by itself, as the legend shows it beside its words."""
    sheet = Sheet()
    if kind == "gap":
        sheet.wire("live", (0, 16), (18, 16))
        sheet.wire("off", (42, 16), (60, 16))
        sheet.gaps.append(Gap("", 30, 16))
    elif kind in ("never", "turned", "unknown", "bar"):
        sheet.wire(kind, (0, 12), (60, 12))
    elif kind in ("sealed", "cover"):
        sheet.boxes.append(Box("", Rect(2, 2, 56, 20), kind))
    else:
        sheet.signs.append(Sign(kind, 30, 12))
    drawing = sheet.done(60, 24)
    parts = [_box(one) for one in drawing.boxes] + [_wire(one) for one in drawing.wires]
    parts += [_gap(one) for one in drawing.gaps] + [sign(one.kind, one.x, one.y) for one in drawing.signs]
    return Markup(f'<svg class="bl-map-symbol" viewBox="0 0 60 24" aria-hidden="true">{"".join(parts)}</svg>')


def _n(number: float) -> str:
    """A coordinate: short, and the same on every machine."""
    return f"{number:.1f}".rstrip("0").rstrip(".")


def _box(box: Box) -> str:
    rounded = f' rx="{_n(box.rect.height / 2)}"' if box.look in _ROUND else ""
    inner = f"<rect {_sides(box.rect, 3)}/>" if box.look == "sealed" else ""
    return f'<g class="bl-map-box bl-map-{box.look}"><rect {_sides(box.rect)}{rounded}/>{inner}</g>'


def _sides(rect: Rect, inset: float = 0) -> str:
    x, y, width, height = rect.x + inset, rect.y + inset, rect.width - 2 * inset, rect.height - 2 * inset
    return f'x="{_n(x)}" y="{_n(y)}" width="{_n(width)}" height="{_n(height)}"'


def _wire(wire: Wire) -> str:
    path = "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in wire.points)
    line = f'<path class="bl-map-wire bl-map-{wire.look}" d="{path}"/>'
    if wire.look != "never":
        return line
    return f'{line}<path class="bl-map-wire bl-map-core" d="{path}"/>'


def _gap(gap: Gap) -> str:
    left, middle, right, y = _n(gap.x - 12), _n(gap.x + 8), _n(gap.x + 12), _n(gap.y)
    return (
        f'<g class="bl-map-gap"><path d="M{left} {y}L{middle} {_n(gap.y - 11)}"/>'
        f'<circle cx="{left}" cy="{y}" r="3"/><circle cx="{right}" cy="{y}" r="3"/></g>'
    )


def sign(kind: str, x: float, y: float) -> str:
    """A sign about its middle: the triangle with a flash, the stop square, the parted plug."""
    paths = {
        "live": "M0-7.5L8 6.5H-8ZM.8-4L-2.6 2H-.2L-1 5.2L2.8.2H.4Z",
        "stop": "M-6-6H6V6H-6Z",
        "plug": "M-7-6L-1 0L-7 6M1-6L7 0L1 6",
        "down": "M0 0L-4-8H4Z",
        "left": "M0 0L8-4V4Z",
        "right": "M0 0L-8-4V4Z",
        "join": "M-3 0A3 3 0 1 0 3 0A3 3 0 1 0-3 0Z",
    }
    place = f"translate({_n(x)} {_n(y)})"
    return f'<path class="bl-map-sign bl-map-sign-{kind}" transform="{place}" d="{paths[kind]}"/>'


def _text(text: Text) -> str:
    # The foot of the letters is about a quarter of the line above its lower edge.
    x = _n(text.rect.x + (text.rect.width / 2 if text.look.startswith("mid") else 0))
    heights = [_n(text.rect.y + LINE * index + 13) for index in range(len(text.lines))]
    look = "".join(f" bl-map-{one}" for one in text.look.split())
    if len(text.lines) == 1:  # most are: a long page has a thousand of them
        return f'<text class="bl-map-text{look}" x="{x}" y="{heights[0]}">{escape(text.lines[0])}</text>'
    rows = zip(heights, text.lines, strict=True)
    inside = "".join(f'<tspan x="{x}" y="{y}">{escape(line)}</tspan>' for y, line in rows)
    return f'<text class="bl-map-text{look}">{inside}</text>'
