"""Every key of the schemas has its place in the model: a file with it reads differently from one without."""

import json
from typing import Any

import pytest
import yaml
from bayleaf.loading.load import load
from bayleaf.loading.schema import FileKind, schema
from kit import PROCEDURE, RECORD, VEHICLE, WORKSHOP

#: A value for a definition that many keys share.
BY_DEFINITION: dict[str, Any] = {
    "text": "some words", "words": ["one", "two"], "identifier": "abc", "name_in_profile": "some-name",
    "names_in_profile": ["some-name"], "names_or_none": ["some-name"], "contact": "X1/1", "pair": ["X1/1", "X1/2"],
    "yes_no": "yes", "count": "3", "date": "2026-02-03", "trouble_code": "P0AA6", "mode": "ignition", "format": "1",
    "states": {"traction": "waited"}, "state": "waited", "built": "2019 to 2020", "fault": "not dead",
    "message": {"hazard": "a", "consequence": "b", "avoid": "c"}, "messages": {"hazard": "a", "consequence": "b", "avoid": "c"},
    "photo": "photos/a.jpg", "conditions": {"mode": "ready"}, "conditions_or_none": {"mode": "ready"}, "target": "stop",
    "outcomes": {"within": "stop"}, "source": {"taken_off_by": [["some-point"]]}, "money": "12.00 EUR",
    "accuracy": "0.7 % + 3 digits",
}  # fmt: skip
#: A value in a unit of each quantity.
BY_QUANTITY = {
    "voltage": "7 V", "time": "7 min", "capacitance": "7 µF", "resistance": "7 kΩ", "torque": "7 N·m", "angle": "7°",
    "temperature": "7 °C", "pressure": "7 bar", "area": "7 mm²", "length": "7 m", "mass": "7 kg", "current": "7 A",
    "data rate": "7 kbit/s", "rotational speed": "7 rpm", "voltage per speed": "7 V per 1000 rpm",
    "calendar time": "7 months", "any": "7 V",
}  # fmt: skip
#: Where the general rule gives nothing that makes sense.
BY_KEY: dict[str, Any] = {
    "for_each": None, "steps": None, "answers": [{"answer": "a", "then": "stop"}, {"answer": "b"}], "of": ["a"],
    "between": ["X1/1", "X1/2"], "tester_proved": {"before": "a", "after": "b"}, "repeat": "at most 2", "perform": "a/b",
    "circuit": "traction", "rate": "7 kbit/s", "friction": "0.10 to 0.16", "amount": "7 L", "limits": "at most 7 V",
    "range": "1 V to 7 V", "discharged": "at most 7 V", "revision": "7", "digest": "0123456789abcdef",
    "started": "2026-02-03 08:00", "vin": "ABCDEFGH123456789", "joins": ["X1/1", "X1/2"], "guard_band": "1.5",
    "reading": "7 V", "at": "X1/1", "leaves_live": [{"place": "a"}], "numbers": [{"number": "a"}], "pins": {"9": {"signal": "s", "circuit": "none"}},
    "face": {"rows": [["1", "2"]]}, "halves": {"device": "a", "cable": "b"}, "dead_at": [{"pair": ["X1/1", "X1/2"]}],
    "rotation": {"turns_with": "wheels"}, "stored": {"capacitance": "7 µF"}, "safe": {"temperature": "at most 7 °C"},
    "voltage": {"kind": "ac"}, "sources": {"battery": "never"}, "functions": {"dc voltage": [{"range": "7 V", "accuracy": "1 %"}]},
    "resolution": "7 V", "fitted": [{"part": "a"}], "people": {"at_least": "2"}, "roles": {"one": "does it"},
    "parts": [{"part": "a"}], "waive": [{"rule": "a", "why": "b"}], "applies": {"built": "2019 to 2020"},
    "class": "class 2", "sensor": {"kind": "NTC"}, "adapter": {"length": "7 m"}, "variants": None, "terminal": ["X1/1"], "interval": "7 months",
}  # fmt: skip


def value_for(key: str, part: dict[str, Any]) -> Any:
    """A value that a key takes."""
    if key in BY_KEY:
        return BY_KEY[key]
    if "x-quantity" in part:
        text = BY_QUANTITY[part["x-quantity"]]
        return f"at most {text}" if part.get("$ref", "").endswith("/limit") else text
    if "$ref" in part:
        return BY_DEFINITION[part["$ref"].rsplit("/", 1)[-1]]
    if "enum" in part:
        return part["enum"][-1]
    if part.get("type") == "array":
        return [value_for(key, part["items"])]
    return "some words"


def text_of(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False)  # JSON is YAML


def model_of(kind: FileKind, data: Any) -> Any:
    loaded = load("procedures/test-van/job.yml", text_of(data).encode("utf-8"), kind)
    assert [finding.message for finding in loaded.findings] == []
    return loaded.model


def plain(text: str) -> Any:
    return yaml.load(text, Loader=yaml.CBaseLoader)


STEP = schema("procedure")["$defs"]["step"]
NEEDED = {"measure": {"quantity": "voltage"}, "compute": {"formula": "average", "of": ["a"]}, "prove_dead": {"using": "a"},
          "prove_safe": {"using": "a"}, "discharge": {"limits": "at most 5 V"}, "ask": {"answers": [{"answer": "x"}, {"answer": "y"}]}}  # fmt: skip
STEP_CASES = [
    (action, key)
    for action in STEP["x-actions"]
    if action not in ("for_each", "do")
    for key in STEP["dependentSchemas"][action]["propertyNames"]["enum"]
    if key not in ("repeat", "exhausted", action)
]


@pytest.mark.parametrize("action", dict.fromkeys(action for action, _ in STEP_CASES))
def test_keys_of_a_step(action: str) -> None:
    """Each key that may stand beside an action changes what the step is."""
    assert [] == [key for of, key in STEP_CASES if of == action and not _changes_the_step(action, key)]


def _changes_the_step(action: str, key: str) -> bool:
    base = {action: value_for(action, STEP["properties"][action]), **NEEDED.get(action, {})}
    if action == "set":
        base = {"set": {"mode": "off"}}
    changed = dict(base)
    if key in NEEDED.get(action, {}):
        changed[key] = {"quantity": "current", "formula": "parallel", "of": ["b"], "using": "b", "limits": "at most 3 V",
                        "answers": [{"answer": "x", "then": "stop"}, {"answer": "y"}]}[key]  # fmt: skip
    elif key == "outcomes":
        changed[key] = {"dead" if action == "prove_dead" else "end" if action == "perform" else "within": "stop"}
    elif key == "people":
        changed[key] = "2"
    elif key == "limits" and action == "prove_safe":
        changed[key] = "at most 7 bar"
    else:
        changed[key] = value_for(key, STEP["properties"][key])
    document = plain(PROCEDURE)

    without = model_of("procedure", {**document, "steps": [base]})
    with_key = model_of("procedure", {**document, "steps": [changed]})

    return bool(without.steps != with_key.steps)


FILES: dict[FileKind, Any] = {
    kind: plain(text)
    for kind, text in (("vehicle", VEHICLE), ("procedure", PROCEDURE), ("workshop", WORKSHOP), ("record", RECORD))
}  # type: ignore[misc]

TOP_CASES = [
    (kind, key)
    for kind in FILES
    for key in schema(kind)["properties"]
    if key not in FILES[kind] and key not in ("variants", "labour", "policy", "systems", "codes")
]


@pytest.mark.parametrize(("kind", "key"), TOP_CASES)
def test_key_of_a_file(kind: FileKind, key: str) -> None:
    """Each key at the left edge of a file changes what the file says."""
    value = {"circuit": "x"}.get(key) or value_for(key, schema(kind)["properties"][key])
    if key == "conclusions":
        value = {"found": {"finding": "something"}}
    if key == "at":
        value = "2026-02-03 08:00"

    without = model_of(kind, FILES[kind])
    with_key = model_of(kind, {**FILES[kind], key: value})

    assert without != with_key


ELEMENTS: list[tuple[FileKind, str, str, str]] = [
    ("vehicle", "circuits", "traction", "circuit"), ("vehicle", "isolation_points", "service-plug", "isolation_point"),
    ("vehicle", "connectors", "X7", "connector"), ("vehicle", "parts", "cabin-heater", "part"),
    ("vehicle", "cables", "ground-strap", "cable"), ("vehicle", "buses", "body", "bus"),
    ("vehicle", "fasteners", "heater-bracket", "fastener"), ("workshop", "instruments", "multimeter", "instrument"),
]  # fmt: skip
ELEMENT_CASES = [
    (kind, section, name, key)
    for kind, section, name, definition in ELEMENTS
    for key in schema(kind)["$defs"][definition]["properties"]
]


@pytest.mark.parametrize(("kind", "section", "name", "key"), ELEMENT_CASES)
def test_key_of_an_element(kind: FileKind, section: str, name: str, key: str) -> None:
    """Each key of an element of the profile or of the workshop file changes the element."""
    definition = next(one[3] for one in ELEMENTS if one[:3] == (kind, section, name))
    part = schema(kind)["$defs"][definition]["properties"][key]
    value = value_for(key, part)
    if (section, key) == ("cables", "between"):
        value = ["X1/1", "X1/2"]
    if (section, key) == ("circuits", "energy"):
        value = "heat"
    elements = {**FILES[kind][section], name: {**FILES[kind][section][name], key: value}}

    without = model_of(kind, FILES[kind])
    with_key = model_of(kind, {**FILES[kind], section: elements})

    field = {"isolation_points": "isolation_points"}.get(section, section)
    assert getattr(without, field)[name] != getattr(with_key, field)[name]


ENTRY = schema("record")["$defs"]["entry"]["properties"]


@pytest.mark.parametrize("key", [key for key in ENTRY if key != "step"])
def test_key_of_an_entry(key: str) -> None:
    """Each key of an entry of a record changes the entry."""
    value = {"at": "2026-02-03 08:00", "limits": "at most 7 V", "paused": "break"}.get(key) or value_for(
        key, ENTRY[key]
    )
    document = FILES["record"]

    without = model_of("record", {**document, "entries": [{"step": "a"}]})
    with_key = model_of("record", {**document, "entries": [{"step": "a", key: value}]})

    assert without.entries != with_key.entries
