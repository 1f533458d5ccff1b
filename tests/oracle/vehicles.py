"""Random vehicles with two or three circuits, of the kinds that decide how a procedure is judged."""

from functools import lru_cache
from random import Random

from bayleaf.model.common import Conditions
from bayleaf.model.contact import Contact
from bayleaf.model.vehicle import (
    Circuit,
    Connector,
    Fastener,
    IsolationPoint,
    Part,
    Pin,
    Rotation,
    Source,
    Stored,
    TestPoint,
    Vehicle,
    Voltage,
)
from bayleaf.quantities.limit import Limit
from bayleaf.quantities.quantity import Quantity, parse_quantity

#: Every vehicle is made once; a campaign uses each of them many times.
POOL = 400
CHASSIS = Contact("chassis")
#: What a profile says where it says all that matters here; a key that is left out counts against the reader.
SAYS = frozenset({"name", "energy", "voltage", "sources", "monitor", "fused", "lock", "stored", "rotation", "dead_at"})


def quantity(text: str) -> Quantity:
    """A quantity that is known to be right."""
    found = parse_quantity(text)
    assert isinstance(found, Quantity), text
    return found


def about(text: str) -> Limit:
    """A value without a tolerance."""
    return Limit(nominal=quantity(text))


@lru_cache(maxsize=POOL)
def vehicle(number: int) -> Vehicle:
    """The vehicle of a number: always the same one."""
    rng = Random(f"vehicle {number}")
    points = _points(rng)
    names = ["traction", "second", "third"][: 3 if rng.random() < 0.3 else 2]
    found = Vehicle("procedures/van/vehicle.yml", "van", "Van")
    circuits, connectors, parts, fasteners = {}, {}, {}, {}
    for number_, name in enumerate(names):
        class_b = number_ == 0 or rng.random() < 0.6
        circuits[name] = _circuit(rng, name, list(points), class_b, number_)
        for letter, free in (("X", False), ("Y", True)):
            connector = f"{letter}{number_}"
            connectors[connector] = _connector(connector, name, name)
            if free:
                screws = f"{connector}-screws"
                fasteners[screws] = _fastener(screws, terminal=(Contact(connector, "1"), Contact(connector, "2")))
        parts[f"{name}-cover"] = _part(f"{name}-cover", (), (name,))
        parts[f"{name}-unit"] = _part(f"{name}-unit", (name,), ())
        fasteners[f"{name}-cover-screws"] = _fastener(f"{name}-cover-screws", part=f"{name}-cover")
    if rng.random() < 0.4:
        connectors["J"] = _connector("J", names[0], names[1])
    if rng.random() < 0.3:
        point = rng.choice(list(points))
        fasteners["point-screw"] = _fastener("point-screw", terminal=(Contact("Y0", "1"),), point=point)
    if rng.random() < 0.2:
        parts["shared-cover"] = _part("shared-cover", (), tuple(names[:2]))
    for name in ("circuits", "connectors", "parts", "fasteners"):
        getattr(found, name).update(locals()[name])
    found.isolation_points.update(points)
    return found


def _points(rng: Random) -> dict[str, IsolationPoint]:
    points: dict[str, IsolationPoint] = {}
    for number in range(rng.randint(2, 4)):
        name = f"p{number}"
        first = (f"p{number - 1}",) if number and rng.random() < 0.15 else ()
        when = Conditions((), mode="off") if rng.random() < 0.6 else None
        if number and when is not None and rng.random() < 0.2:
            when = Conditions((), mode="off", open=("p0",))
        kind, breaks = ("contactor", "coil supply only") if number and rng.random() < 0.07 else ("plug", "conductor")
        breaks = "middle of the battery" if breaks == "conductor" and rng.random() < 0.3 else breaks
        lock = None if rng.random() < 0.04 else "Padlock"
        points[name] = IsolationPoint((), name, name, kind, breaks, (), None, first, when, lock, None)
    return points


def _circuit(rng: Random, name: str, points: list[str], class_b: bool, number: int) -> Circuit:
    kind = "ac" if class_b and rng.random() < 0.15 else "dc"
    highest = quantity(rng.choice(("410 V", "830 V")) if class_b else rng.choice(("54 V", "58 V")))
    contacts = [Contact(f"X{number}", str(pin), "cable") for pin in (1, 2, 3)[: 3 if kind == "ac" else 2]]
    pairs = [(one, other) for index, one in enumerate(contacts) for other in (*contacts[index + 1 :], CHASSIS)]
    if class_b and rng.random() < 0.04:
        pairs.pop(rng.randrange(len(pairs)))  # then the profile itself asks for too little
    rotation = None
    if rng.random() < 0.4:
        speed = rng.choice((quantity("300 rpm"), quantity("2000 rpm"), None))
        rotation = Rotation((), "driven wheels", quantity("80 V per 1000 rpm"), speed)
    return Circuit(
        at=(), id=name, name=name, energy="electrical", voltage=Voltage(kind, None, highest, frozenset({"kind", "max"})),
        sources=_sources(rng, points, class_b), fused=False, lock=not class_b and rng.random() < 0.2,
        rotation=rotation, monitor=None, stored=_stored(rng),
        dead_at=tuple(TestPoint((), pair, f"{name}-cover", frozenset({"pair", "access"})) for pair in pairs),
        sealed_in=None, safe=(), location=None, says=SAYS - ({"rotation"} if rng.random() < 0.1 else set()),
    )  # fmt: skip


def _sources(rng: Random, points: list[str], class_b: bool) -> tuple[Source, ...]:
    def ways() -> tuple[tuple[str, ...], ...]:
        chance = rng.random()
        chosen = rng.sample(points, min(3, len(points)))
        if chance < 0.45:
            return ((chosen[0],), (chosen[1],))
        if chance < 0.65:
            return (tuple(chosen[:2]),)
        if chance < 0.75 and len(chosen) > 2:
            return (tuple(chosen[:2]), (chosen[2],))
        if chance < 0.85 and not class_b:
            return (("mode-off", chosen[0]),)
        return ((chosen[0],),)

    if rng.random() < 0.02:
        return rng.choice(((), (Source((), "cells", "never"),)))
    found = [Source((), "battery", "points", ways())]
    if rng.random() < 0.35:
        found.append(Source((), "charging", "points", ((rng.choice(points),),)))
    if rng.random() < 0.7:
        found.append(Source((), "converter", "none"))
    elif rng.random() < 0.5:
        found.append(Source((), "converter", "points", ((rng.choice(points),),)))
    return (*found, Source((), "external", "none"))


def _stored(rng: Random) -> Stored | None:
    chance = rng.random()
    if chance < 0.25:
        return None
    bleed = None if chance < 0.3 else about("47 kΩ")
    capacitance = about(rng.choice(("100 µF", "2 mF")))
    stated = quantity(rng.choice(("2 min", "5 min")))
    none = frozenset({"bleed"}) if bleed is None else frozenset()
    return Stored((), capacitance, bleed, stated, None, frozenset({"capacitance", "bleed", "stated_wait"}), none)


def _connector(name: str, device: str, cable: str) -> Connector:
    pins = {str(number): Pin((), str(number), "HV", device, cable, None, None, None) for number in (1, 2, 3)}
    return Connector((), name, name, None, None, (), None, pins, None)


def _part(name: str, circuits: tuple[str, ...], exposes: tuple[str, ...]) -> Part:
    return Part((), name, name, circuits, exposes, (), False, None, None, None, (), None)


def _fastener(
    name: str, part: str | None = None, terminal: tuple[Contact, ...] = (), point: str | None = None
) -> Fastener:
    nothing = (None,) * 4
    return Fastener(
        (), name, None, part, terminal, point, *nothing[:3], 1, None, None, None, about("6 N·m"), *nothing, None, None
    )
