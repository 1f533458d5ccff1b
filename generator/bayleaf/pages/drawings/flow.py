"""The flow of a procedure that branches: its steps down a spine, in the order of the file.

Below a step stand its exits. One that jumps forward is led down a lane on the right to its step, one that goes back is
dashed and led up a lane on the left. Exits to one step share a lane. Ends and stops are boxes where they are reached;
so is a jump for which no lane is free, with the number of its step. Every step and every exit is a link.
"""

from typing import NamedTuple

from .lanes import Span, allotted
from .shapes import LINE, SIZE, WIDTH, Box, Drawing, Link, Rect, Sheet, Sign
from .wrapping import width_of, wrapped

#: Lanes on each side, and the room for one.
RIGHT_LANES, LEFT_LANES, _LANE = 6, 4, 8.0
_LEFT = LEFT_LANES * _LANE + 8
_RIGHT = WIDTH - RIGHT_LANES * _LANE - 8
_SPINE = _LEFT + 12
_EXIT = _SPINE + 14  # where the box of an exit begins
_PAD = 5.0
#: The room between a step with its exits and the next one.
GAP = 12.0
_NUMBER = 40.0


class Way(NamedTuple):
    """A way out of a step: in what case, and where to: the index of a step, or an end in words with its address.

    `url` may be empty where there is nothing to go to. `target` is None at an end.
    """

    case: str
    target: int | None
    where: str
    url: str
    stops: bool = False


class FlowStep(NamedTuple):
    """A step; `goes_on` is said of the way to the next one, None where none leads there."""

    number: str
    title: str
    url: str
    ways: tuple[Way, ...]
    goes_on: str | None


class _Exit(NamedTuple):
    """A way out that is placed: where its box would lie."""

    of: str
    source: int
    way: Way
    rect: Rect


def flow(steps: tuple[FlowStep, ...]) -> Drawing:
    """The steps, their exits, and what joins them. Behind the last step stands the end that it goes on to."""
    sheet = Sheet()
    boxes: list[Rect] = []
    exits: list[_Exit] = []
    y = 2.0
    for index, step in enumerate(steps):
        boxes.append(_step(sheet, index, step, y))
        below = (
            _exits(sheet, index, step, boxes[-1].bottom + 4, exits) if step.ways or step.goes_on else boxes[-1].bottom
        )
        y = below + GAP
        _spine(sheet, boxes[-1].bottom, y if step.goes_on is not None else None, exits, index)
    if steps and steps[-1].goes_on is not None:
        of, rect = "end", Rect(_LEFT, y, _RIGHT - _LEFT, LINE + 2 * _PAD)
        sheet.boxes.append(Box(of, rect, "end"))
        sheet.label(of, "End: the last step is done", rect)
        y = rect.bottom
    else:
        y -= GAP
    loose = _jumps(sheet, exits, boxes)
    for one in exits:
        boxed = one.way.target is None or one.of in loose
        sheet.boxes.append(Box(one.of, one.rect, "halt" if one.way.stops else "end" if boxed else "hit"))
    return sheet.done(WIDTH, y + 4)


def flow_words(steps: tuple[FlowStep, ...]) -> str:
    """The same for whoever does not see it: what follows each step at which the flow divides."""
    told = []
    for step in steps:
        if step.ways:
            ways = [way_words(way) for way in step.ways]
            if step.goes_on is not None:
                ways.append(f"{step.goes_on or 'Then'}: next step")
            told.append(f"Step {step.number}: {'; '.join(ways)}.")
    return " ".join([*told, "Every other step is followed by the next."])


def way_words(way: Way) -> str:
    """A way out in words: "Below: step 14"."""
    return f"{way.case}: {way.where}"


def _shortened(text: str, width: float, lines: int) -> str:
    """The text as far as it fits into so many lines."""
    found = wrapped(text, width, SIZE)
    if len(found) <= lines:
        return text
    kept = " ".join(found[:lines])
    while len(wrapped(f"{kept}…", width, SIZE)) > lines:
        kept = kept[:-1].rstrip()
    return f"{kept}…"


def _step(sheet: Sheet, index: int, step: FlowStep, y: float) -> Rect:
    """The box of a step: its number, and its title in one line, in two where the flow divides."""
    of = f"step:{index}"
    number = max(_NUMBER, width_of(step.number, SIZE, True) + 10)
    sheet.write(of, step.number, _LEFT + _PAD, y + _PAD, number, "strong")
    room = _RIGHT - _LEFT - 2 * _PAD - number
    title = _shortened(step.title, room, 2 if step.ways else 1)
    bottom = sheet.write(of, title, _LEFT + _PAD + number, y + _PAD, room)
    rect = Rect(_LEFT, y, _RIGHT - _LEFT, max(bottom, y + _PAD + LINE) + _PAD - y)
    sheet.boxes.append(Box(of, rect, "step-divides" if step.ways else "step"))
    sheet.links.append(Link(of, step.url, f"Step {step.number}: {step.title}"))
    return rect


def _exits(sheet: Sheet, index: int, step: FlowStep, y: float, exits: list[_Exit]) -> float:
    """The ways out below a step, that to the next one last; gives the y below them."""
    for number, way in enumerate(step.ways):
        of = f"way:{index}:{number}"
        room = _RIGHT - _EXIT - 2 * _PAD
        text = _shortened(way_words(way), room - (20 if way.stops else 0), 3)
        bottom = sheet.write(of, text, _EXIT + _PAD, y + 3, room, sign="stop" if way.stops else "")
        rect = Rect(_EXIT, y, sheet.texts[-1].rect.right + _PAD - _EXIT, bottom + 3 - y)
        exits.append(_Exit(of, index, way, rect))
        if way.url:
            sheet.links.append(Link(of, way.url, way_words(way)))
        y = rect.bottom + 4
    if step.goes_on:
        y = sheet.write(f"on:{index}", _shortened(step.goes_on, _RIGHT - _EXIT, 3), _EXIT, y, _RIGHT - _EXIT, "quiet")
    return y


def _spine(sheet: Sheet, top: float, next_top: float | None, exits: list[_Exit], index: int) -> None:
    """The line from a step to its exits, and on to the next one where a way leads there."""
    heights = []
    for one in reversed(exits):
        if one.source != index:
            break
        heights.append(_middle(one.rect))
        sheet.wire("flow", (_SPINE, heights[-1]), (_EXIT, heights[-1]))
    bottom = next_top if next_top is not None else max(heights, default=top)
    if bottom > top:
        sheet.wire("flow", (_SPINE, top), (_SPINE, bottom))
    if next_top is not None:
        sheet.signs.append(Sign("down", _SPINE, next_top))


def _middle(rect: Rect) -> float:
    return rect.y + rect.height / 2


def _jumps(sheet: Sheet, exits: list[_Exit], boxes: list[Rect]) -> set[str]:
    """The lines of jumps and loops; gives the exits for which no lane was free."""
    loose: set[str] = set()
    for back, lanes in ((False, RIGHT_LANES), (True, LEFT_LANES)):
        groups: dict[int, list[_Exit]] = {}
        for one in exits:
            if one.way.target is not None and (one.way.target <= one.source) is back:
                groups.setdefault(one.way.target, []).append(one)
        spans = []
        for target, group in groups.items():
            heights = [_middle(boxes[target]), *(_middle(one.rect) for one in group)]
            spans.append(Span(target, min(heights), max(heights)))
        found = allotted(spans, lanes)
        for target, group in groups.items():
            if target in found:
                _jump(sheet, group, boxes[target], found[target], back)
            else:
                loose |= {one.of for one in group}
    return loose


def _jump(sheet: Sheet, group: list[_Exit], target: Rect, lane: int, back: bool) -> None:
    """The lane from all exits of a group to their step, with an arrow there and a dot where another exit joins it."""
    look = "loop" if back else "jump"
    x = _LEFT - (lane + 1) * _LANE if back else _RIGHT + (lane + 1) * _LANE
    edge, end = (_LEFT, "right") if back else (_RIGHT, "left")
    farthest = (max if back else min)(group, key=lambda one: one.rect.y)
    height = _middle(target)
    for one in group:
        begin, level = _SPINE if back else one.rect.right, _middle(one.rect)
        if one is farthest:
            sheet.wire(look, (begin, level), (x, level), (x, height), (edge, height))
        else:
            sheet.wire(look, (begin, level), (x, level))
            sheet.signs.append(Sign("join", x, level))
    sheet.signs.append(Sign(end, edge, height))
