"""The workshop file, from plain data to the model."""

import re
from typing import Any

from ..diagnostics.place import Path
from ..model.workshop import Accuracy, Instrument, Policy, Protection, ProvingUnit, Range, Tool, Workshop
from .reader import Reader
from .value_reader import Data, fraction

#: What the ranges of a function are given in.
FUNCTION_QUANTITY = {
    "dc voltage": "voltage", "ac voltage": "voltage", "dc current": "current", "ac current": "current",
    "resistance": "resistance", "continuity": "resistance", "diode": "voltage", "capacitance": "capacitance",
    "frequency": "frequency", "temperature": "temperature", "insulation resistance": "resistance",
    "low resistance": "resistance", "pressure": "pressure", "torque": "torque",
    "mass": "mass", "length": "length", "duty cycle": "ratio", "time": "time", "speed": "speed",
    "angle": "angle",
}  # fmt: skip

_ACCURACY = re.compile(r"([0-9.]+) ?%(?: ?\+ ?([0-9]+) digits?)?")


def read_workshop(data: Data, reader: Reader, file: str) -> Workshop:
    """The workshop file; what could not be read is missing in it."""
    labour = data.get("labour") or {}
    tools: dict[str, Tool] = {}
    for name, value in (data.get("tools") or {}).items():
        tools[name] = _tool(reader, name, value, ("tools", name))
    return Workshop(
        file=file,
        name=reader.text(data, "name"),
        instruments=reader.each(data, "instruments", lambda *item: _instrument(reader, *item)),
        proving_units=reader.each(data, "proving_units", lambda *item: _proving_unit(reader, *item)),
        tools=tools,
        protection=reader.each(data, "protection", lambda *item: _protection(reader, *item)),
        policy=_policy(reader, data.get("policy") or {}, ("policy",)),
        labour_rate=reader.text(labour, "rate"),
        broken=reader.is_broken(()),
    )


def _tool(reader: Reader, name: str, value: Any, at: Path) -> Tool:
    if not isinstance(value, dict):
        return Tool(at, name, value.strip() if isinstance(value, str) else name, None, None)
    insulated = reader.quantity(value, "insulated_to", at, "voltage")
    return Tool(at, name, reader.text(value, "name") or name, insulated, reader.text(value, "location"))


def read_accuracy(text: str | None) -> Accuracy | None:
    """The accuracy of an instrument, such as `0.5 % + 2 digits`."""
    found = _ACCURACY.fullmatch(text.strip()) if text else None
    percent = fraction(found[1]) if found else None
    return Accuracy(percent, int(found[2] or 0)) if found and percent is not None else None


def _instrument(reader: Reader, name: str, data: Data, at: Path) -> Instrument:
    functions: dict[str, tuple[Range, ...]] = {}
    for function, ranges in (data.get("functions") or {}).items():
        if isinstance(ranges, list):
            path = (*at, "functions", function)
            functions[function] = tuple(
                _range(reader, value, (*path, index), FUNCTION_QUANTITY.get(function))
                for index, value in enumerate(ranges) if isinstance(value, dict)
            )  # fmt: skip
    return Instrument(
        at=at,
        id=name,
        name=reader.text(data, "name") or name,
        kind=data.get("kind"),
        category=reader.text(data, "category"),
        highest_dc=reader.quantity(data, "highest_dc", at, "voltage"),
        lowest_indication=reader.quantity(data, "lowest_indication", at, "voltage"),
        calibrated=reader.date(data, "calibrated", at),
        interval=reader.quantity(data, "interval", at, "calendar time"),
        functions=functions,
        range=reader.limit(data, "range", at),
        accuracy=read_accuracy(data.get("accuracy")),
        length=reader.quantity(data, "length", at, "length"),
        location=reader.text(data, "location"),
    )


def _range(reader: Reader, data: Data, at: Path, expected: str | None) -> Range:
    return Range(
        at,
        reader.quantity(data, "range", at, expected),
        reader.quantity(data, "resolution", at, expected),
        read_accuracy(data.get("accuracy")),
        reader.quantity(data, "test_current", at, "current"),
        reader.quantity(data, "test_voltage", at, "voltage"),
    )


def _proving_unit(reader: Reader, name: str, data: Data, at: Path) -> ProvingUnit:
    return ProvingUnit(
        at,
        name,
        reader.text(data, "name") or name,
        reader.quantity(data, "voltage", at, "voltage"),
        reader.date(data, "checked", at),
        reader.quantity(data, "interval", at, "calendar time"),
    )


def _protection(reader: Reader, name: str, data: Data, at: Path) -> Protection:
    glove_class = reader.text(data, "class")
    return Protection(
        at,
        name,
        reader.text(data, "name") or name,
        reader.text(data, "kind"),
        glove_class.removeprefix("class ") if glove_class else None,
        reader.date(data, "tested", at),
        reader.quantity(data, "interval", at, "calendar time"),
        reader.quantity(data, "voltage", at, "voltage"),
        reader.text(data, "location"),
    )


def _policy(reader: Reader, data: Data, at: Path) -> Policy:
    return Policy(
        reader.quantity(data, "dead_below", at, "voltage"),
        fraction(reader.text(data, "guard_band")),
        reader.quantity(data, "proof_holds", at, "time"),
        bool(reader.yes(data, "allow_vin")),
    )
