"""What a drawing is made of, as plain values with places, and the SVG that is written from them.

Every colour comes from a class of the style sheet, so that the drawing follows the light and the dark scheme and print.
No meaning hangs on colour: lines differ in thickness and dashes, signs in form, and words say the same.
"""

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


def svg(drawing: Drawing, key: str | None, title: str, text: str, shown_again: bool = False) -> Markup:
    """The drawing as inline SVG; where it is `shown_again` elsewhere on the page, all of it is a group with a name.
    `key` sets its title and description apart from others on the page; without one,
    for a drawing that is small and stands many times on a page, title and text are its label.
    """
    linked = {link.of for link in drawing.links}
    parts: list[Markup] = []
    parts += [_box(box) for box in drawing.boxes if box.of not in linked]
    parts += [_wire(wire) for wire in drawing.wires]
    parts += [_gap(gap) for gap in drawing.gaps]
    parts += [sign(one.kind, one.x, one.y) for one in drawing.signs]
    parts += [_text(one) for one in drawing.texts if one.of not in linked]
    parts += _links(drawing)
    if shown_again:
        parts = [Markup('<g id="drawing:{}">').format(key), *parts, Markup("</g>")]
    if key is None:
        return Markup('<svg class="bl-map-drawing" viewBox="0 0 {} {}" role="img" aria-label="{}">{}</svg>').format(
            _n(drawing.width), _n(drawing.height), f"{title}: {text}", Markup("").join(parts)
        )
    return Markup(
        '<svg class="bl-map-drawing" viewBox="0 0 {width} {height}" role="{role}"'
        ' aria-labelledby="title:{key} text:{key}"><title id="title:{key}">{title}</title>'
        '<desc id="text:{key}">{text}</desc>{parts}</svg>'
    ).format(
        width=_n(drawing.width), height=_n(drawing.height), key=key, title=title, text=text,
        role="group" if linked else "img",  # what lies in an image cannot be reached
        parts=Markup("").join(parts),
    )  # fmt: skip


def _links(drawing: Drawing) -> list[Markup]:
    """What is drawn of each thing that leads somewhere, as a link."""
    inside: dict[str, list[Markup]] = {link.of: [] for link in drawing.links}
    for box in drawing.boxes:
        if box.of in inside:
            inside[box.of].append(_box(box))
    for text in drawing.texts:
        if text.of in inside:
            inside[text.of].append(_text(text))
    return [
        Markup('<a href="{}" aria-label="{}">{}</a>').format(link.url, link.label, Markup("").join(inside[link.of]))
        for link in drawing.links
    ]


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
    return Markup('<svg class="bl-map-symbol" viewBox="0 0 60 24" aria-hidden="true">{}</svg>').format(
        Markup("").join(parts)
    )


def _n(number: float) -> str:
    """A coordinate: short, and the same on every machine."""
    return f"{number:.1f}".rstrip("0").rstrip(".")


def _box(box: Box) -> Markup:
    rect = box.rect
    inner = Markup("")
    if box.look == "sealed":
        inner = Markup('<rect x="{}" y="{}" width="{}" height="{}"/>').format(
            _n(rect.x + 3), _n(rect.y + 3), _n(rect.width - 6), _n(rect.height - 6)
        )
    rounded = Markup(' rx="{}"').format(_n(rect.height / 2)) if box.look in _ROUND else ""
    return Markup('<g class="bl-map-box bl-map-{}"><rect x="{}" y="{}" width="{}" height="{}"{}/>{}</g>').format(
        box.look, _n(rect.x), _n(rect.y), _n(rect.width), _n(rect.height), rounded, inner
    )


def _wire(wire: Wire) -> Markup:
    path = "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in wire.points)
    line = Markup('<path class="bl-map-wire bl-map-{}" d="{}"/>').format(wire.look, path)
    if wire.look != "never":
        return line
    return line + Markup('<path class="bl-map-wire bl-map-core" d="{}"/>').format(path)


def _gap(gap: Gap) -> Markup:
    left, right, y = gap.x - 12, gap.x + 12, gap.y
    return Markup(
        '<g class="bl-map-gap"><path d="M{} {}L{} {}"/>'
        '<circle cx="{}" cy="{}" r="3"/><circle cx="{}" cy="{}" r="3"/></g>'
    ).format(*map(_n, (left, y, right - 4, y - 11, left, y, right, y)))


def sign(kind: str, x: float, y: float) -> Markup:
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
    return Markup('<path class="bl-map-sign bl-map-sign-{}" transform="translate({} {})" d="{}"/>').format(
        kind, _n(x), _n(y), paths[kind]
    )


def _text(text: Text) -> Markup:
    # The foot of the letters is about a quarter of the line above its lower edge.
    x = _n(text.rect.x + (text.rect.width / 2 if text.look.startswith("mid") else 0))
    heights = [_n(text.rect.y + LINE * index + 13) for index in range(len(text.lines))]
    look = "".join(f" bl-map-{one}" for one in text.look.split())
    if len(text.lines) == 1:  # most are: a long page has a thousand of them
        shape = Markup('<text class="bl-map-text{}" x="{}" y="{}">{}</text>')
        return shape.format(look, x, heights[0], escape(text.lines[0]))
    rows = Markup("").join(
        Markup('<tspan x="{}" y="{}">{}</tspan>').format(x, y, escape(line))
        for y, line in zip(heights, text.lines, strict=True)
    )
    return Markup('<text class="bl-map-text{}">{}</text>').format(look, rows)
