"""A vehicle profile, from plain data to the model."""

from typing import Any

from ..diagnostics.place import Path
from ..model.vehicle import (
    Adapter,
    Bus,
    Cable,
    CatalogueNumber,
    Circuit,
    CodeMeaning,
    Connector,
    Fastener,
    IsolationPoint,
    LivePlace,
    Part,
    Pin,
    Rotation,
    Source,
    Stored,
    TestPoint,
    Variant,
    Vehicle,
    Voltage,
)
from .read_sensor import read_sensor
from .reader import Reader
from .value_reader import Data


def read_vehicle(data: Data, reader: Reader, file: str) -> Vehicle:
    """The profile; what could not be read is missing in it and marked broken."""
    systems = {key: text.strip() for key, text in (data.get("systems") or {}).items() if isinstance(text, str)}
    return Vehicle(
        file=file,
        id=reader.text(data, "vehicle") or file.split("/")[-2],
        name=reader.text(data, "name") or file.split("/")[-2],
        built=reader.built(data, "built", ()),
        about=reader.text(data, "about"),
        does_not_cover=reader.words(data, "does_not_cover"),
        photo=reader.photo(data, ()),
        variants=reader.each(data, "variants", lambda *item: _variant(reader, *item)),
        systems=systems,
        codes=reader.each(data, "codes", lambda *item: _code(reader, *item)),
        circuits=reader.each(data, "circuits", lambda *item: _circuit(reader, *item)),
        isolation_points=reader.each(data, "isolation_points", lambda *item: _point(reader, *item)),
        connectors=reader.each(data, "connectors", lambda *item: _connector(reader, *item)),
        parts=reader.each(data, "parts", lambda *item: _part(reader, *item)),
        cables=reader.each(data, "cables", lambda *item: _cable(reader, *item)),
        buses=reader.each(data, "buses", lambda *item: _bus(reader, *item)),
        fasteners=reader.each(data, "fasteners", lambda *item: _fastener(reader, *item)),
        broken=reader.is_broken(()),
        waivers=reader.waivers(data),
    )


def _variant(reader: Reader, name: str, data: Data, at: Path) -> Variant:
    title = reader.text(data, "name") or name
    return Variant(at, name, title, reader.built(data, "built", at), reader.text(data, "told_by"))


def _code(reader: Reader, name: str, data: Data, at: Path) -> CodeMeaning:
    return CodeMeaning(at, name, reader.text(data, "means") or "", data.get("fault"))


def _circuit(reader: Reader, name: str, data: Data, at: Path) -> Circuit:
    faults = len(reader.findings)
    sources = data.get("sources") or {}
    monitor = data.get("monitor")
    safe = data.get("safe") or {}
    expected = {"temperature": "temperature", "gauge_pressure": "pressure", "voltage": "voltage"}
    limits = ((key, reader.limit(safe, key, (*at, "safe"), expected[key])) for key in safe)
    points, whole = _dead_at(reader, data, at)
    return Circuit(
        at=at,
        id=name,
        name=reader.text(data, "name") or name,
        energy=data.get("energy") or "electrical",
        voltage=_voltage(reader, data, at),
        sources=tuple(
            _source(key, value, (*at, "sources", key)) for key, value in sources.items() if value is not None
        ),
        fused=reader.yes(data, "fused"),
        lock=bool(reader.yes(data, "lock")),
        rotation=_rotation(reader, data, at),
        monitor=None if monitor is None or monitor == "none" else _source("monitor", monitor, (*at, "monitor")),
        stored=_stored(reader, data, at),
        dead_at=points,
        sealed_in=reader.text(data, "sealed_in"),
        safe=tuple((key, limit) for key, limit in limits if limit is not None),
        location=reader.text(data, "location"),
        says=frozenset(data),
        broken=reader.is_broken(at) or not whole or len(reader.findings) > faults,
        joined_with=reader.names(data, "joined_with"),
        protected=reader.yes(data, "protected"),
        is_gas=reader.yes(data, "gas") or False,
    )


def _voltage(reader: Reader, data: Data, at: Path) -> Voltage | None:
    value = data.get("voltage")
    if not isinstance(value, dict):
        return None
    path = (*at, "voltage")
    nominal = reader.quantity(value, "nominal", path, "voltage")
    highest = reader.quantity(value, "max", path, "voltage")
    return Voltage(value.get("kind") or "dc", nominal, highest, frozenset(value))


def _source(name: str, value: Any, at: Path) -> Source:
    if isinstance(value, str):
        return Source(at, name, "none" if value == "none" else "never")
    sets = value.get("taken_off_by") or ()
    ways = (tuple(point.strip() for point in one if isinstance(point, str)) for one in sets if isinstance(one, list))
    called = value.get("name")
    return Source(at, name, "points", tuple(ways), called.strip() if isinstance(called, str) else None)


def _rotation(reader: Reader, data: Data, at: Path) -> Rotation | None:
    value = data.get("rotation")
    if not isinstance(value, dict):
        return None
    path = (*at, "rotation")
    return Rotation(
        path,
        reader.text(value, "turns_with") or "",
        reader.quantity(value, "constant", path, "voltage per speed"),
        reader.quantity(value, "at_most", path, "rotational speed"),
    )


def _stored(reader: Reader, data: Data, at: Path) -> Stored | None:
    value = data.get("stored")
    if not isinstance(value, dict):
        return None
    path = (*at, "stored")
    words = {key: text.strip() for key, text in value.items() if isinstance(text, str)}
    none = frozenset(key for key in ("bleed", "stated_wait") if words.get(key) == "none")
    not_known = frozenset(key for key in ("capacitance", "bleed") if words.get(key) == "not known")
    figures = {key: item for key, item in value.items() if key not in none | not_known}
    return Stored(
        path,
        reader.value(figures, "capacitance", path, "capacitance"),
        reader.value(figures, "bleed", path, "resistance"),
        reader.quantity(figures, "stated_wait", path, "time"),
        reader.value(figures, "to_chassis", path, "capacitance"),
        frozenset(value),
        none,
        not_known,
    )


def _dead_at(reader: Reader, data: Data, at: Path) -> tuple[tuple[TestPoint, ...], bool]:
    """The test points, and whether every one could be read."""
    points, whole = [], True
    for index, value in enumerate(data.get("dead_at") or ()):
        if isinstance(value, dict):
            path = (*at, "dead_at", index)
            pair = reader.pair(value.get("pair"), (*path, "pair"))
            whole = whole and pair is not None
            if pair is not None:
                access = reader.text(value, "access")
                points.append(TestPoint(path, pair, None if access == "none" else access, frozenset(value)))
    return tuple(points), whole


def _point(reader: Reader, name: str, data: Data, at: Path) -> IsolationPoint:
    live = data.get("leaves_live")
    places = []
    if isinstance(live, list):
        for index, value in enumerate(live):
            if isinstance(value, dict):
                voltage = reader.quantity(value, "voltage", (*at, "leaves_live", index), "voltage")
                places.append(LivePlace(reader.text(value, "place") or "", voltage))
    return IsolationPoint(
        at=at,
        id=name,
        name=reader.text(data, "name") or name,
        kind=data.get("kind") or "",
        breaks=data.get("breaks"),
        leaves_live=tuple(places),
        location=reader.text(data, "location"),
        first=reader.names(data, "first"),
        only_when=reader.conditions(data, "only_when", at),
        secure_with=reader.text(data, "secure_with"),
        photo=reader.photo(data, at),
        broken=reader.is_broken(at),
    )


def _connector(reader: Reader, name: str, data: Data, at: Path) -> Connector:
    halves = data.get("halves")
    face = data.get("face") or {}
    rows = tuple(
        tuple(pin.strip() for pin in row if isinstance(pin, str))
        for row in face.get("rows") or () if isinstance(row, list)
    )  # fmt: skip
    pins = {
        number: _pin(reader, number, value, (*at, "pins", number))
        for number, value in (data.get("pins") or {}).items() if isinstance(value, dict)
    }  # fmt: skip
    return Connector(
        at=at,
        id=name,
        name=reader.text(data, "name") or name,
        location=reader.text(data, "location"),
        halves=(halves.get("device") or "device", halves.get("cable") or "cable") if halves else None,
        face=rows,
        seen_from=reader.text(face, "seen_from"),
        pins=pins,
        photo=reader.photo(data, at),
        broken=reader.is_broken(at),
    )


def _pin(reader: Reader, number: str, data: Data, at: Path) -> Pin:
    circuit = data.get("circuit")
    if isinstance(circuit, dict):
        device, cable = circuit.get("device"), circuit.get("cable")
    else:
        device = cable = circuit
    return Pin(
        at=at,
        number=number,
        signal=reader.text(data, "signal") or "",
        device_circuit=None if device == "none" else device,
        cable_circuit=None if cable == "none" else cable,
        bus=reader.text(data, "bus"),
        colour=reader.text(data, "colour"),
        area=reader.quantity(data, "area", at, "area"),
    )


def _part(reader: Reader, name: str, data: Data, at: Path) -> Part:
    numbers = []
    for index, value in enumerate(data.get("numbers") or ()):
        if isinstance(value, dict):
            path = (*at, "numbers", index)
            numbers.append(CatalogueNumber(
                path, reader.text(value, "number") or "", reader.words(value, "replaces"),
                reader.text(value, "price"), reader.text(value, "lead_time"), reader.date(value, "seen", path),
            ))  # fmt: skip
    return Part(
        at=at,
        id=name,
        name=reader.text(data, "name") or name,
        circuits=reader.names(data, "circuits"),
        exposes=reader.names(data, "exposes"),
        connectors=reader.names(data, "connectors"),
        sealed=bool(reader.yes(data, "sealed")),
        location=reader.text(data, "location"),
        mass=reader.quantity(data, "mass", at, "mass"),
        highest_test_voltage=reader.quantity(data, "highest_test_voltage", at, "voltage"),
        numbers=tuple(numbers),
        photo=reader.photo(data, at),
        broken=reader.is_broken(at),
        sensor=read_sensor(reader, data.get("sensor"), (*at, "sensor")),
    )


def _cable(reader: Reader, name: str, data: Data, at: Path) -> Cable:
    circuit = reader.text(data, "circuit")
    return Cable(
        at=at,
        id=name,
        name=reader.text(data, "name") or name,
        circuit=None if circuit == "none" else circuit,
        between=reader.pair(data.get("between"), (*at, "between")),
        area=reader.quantity(data, "area", at, "area"),
        length=reader.quantity(data, "length", at, "length"),
        joints=reader.count(data, "joints"),
        location=reader.text(data, "location"),
        broken=reader.is_broken(at),
    )


def _bus(reader: Reader, name: str, data: Data, at: Path) -> Bus:
    title = reader.text(data, "name") or name
    rate = reader.quantity(data, "rate", at, "data rate")
    return Bus(
        at,
        name,
        title,
        data.get("kind") or "",
        rate,
        reader.names(data, "terminated_in"),
        reader.is_broken(at),
    )


def _fastener(reader: Reader, name: str, data: Data, at: Path) -> Fastener:
    terminal = reader.words(data, "terminal")
    torque = data.get("torque")
    single = isinstance(data.get("terminal"), str)
    contacts = (
        reader.contact(text, (*at, "terminal") if single else (*at, "terminal", index))
        for index, text in enumerate(terminal)
    )
    return Fastener(
        at=at,
        id=name,
        name=reader.text(data, "name"),
        part=reader.text(data, "part"),
        terminal=tuple(contact for contact in contacts if contact is not None),
        point=reader.text(data, "point"),
        size=reader.text(data, "size"),
        property_class=reader.text(data, "class"),
        material=reader.text(data, "material"),
        count=reader.count(data, "count") or 1,
        into=reader.text(data, "into"),
        engagement=reader.quantity(data, "engagement", at, "length"),
        friction=reader.text(data, "friction"),
        torque=reader.value(data, "torque", at, "torque"),
        then_turn=reader.quantity(data, "then_turn", at, "angle"),
        yields=reader.yes(data, "yields"),
        one_use=reader.yes(data, "one_use"),
        order=data.get("order"),
        passes=reader.count(data, "passes"),
        location=reader.text(data, "location"),
        broken=reader.is_broken(at),
        torque_by=reader.cited(torque, (*at, "torque")) if isinstance(torque, dict) else None,
        adapter=_adapter(reader, data.get("adapter"), (*at, "adapter")),
    )


def _adapter(reader: Reader, data: Any, at: Path) -> Adapter | None:
    if not isinstance(data, dict):
        return None
    return Adapter(at, reader.quantity(data, "length", at, "length"), reader.quantity(data, "angle", at, "angle"))
