"""The digest of a procedure: sixteen digits that change when what somebody does, reads or is warned of changes.

    digest = the first 16 hexadecimal digits of the SHA-256 of the canonical form, as JSON in UTF-8

The canonical form holds the safety content of the model, with all procedures that it performs, the torques of the
fasteners it tightens, and the test points and safe values of the circuits it proves: steps with their words, actions,
limits, conditions, messages and exits, what is asked of people, tools and protection, what it expects and leaves, and
the conclusions. A quantity counts by its size, so `5 V` and `5000 mV` are one. What stands for nothing (none, empty,
no) is left out: a new key of the format changes no digest until it is used. Titles, revisions, sources, photos,
trouble codes and places in the file are no part of it.

Source: FIPS 180-4 (SHA-256, as Python has it).
"""

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from functools import cache
from typing import Any

from ..model import actions
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from ..quantities.quantity import Quantity

DIGITS = 16

#: What a procedure is about or where it comes from, not what is done.
_NOT_OF_THE_CONTENT = frozenset({
    "at", "file", "folder", "title", "kind", "system", "about", "symptoms", "trouble_codes", "revisions", "photo",
    "source", "cited", "waivers", "shape_is_whole", "broken", "has_limits", "origin", "group", "starts_group",
    "consumables", "parts",
})  # fmt: skip
#: Of a conclusion and of an action these are content after all.
_CONTENT_OF: Mapping[str, frozenset[str]] = {
    "Conclusion": frozenset({"parts"}),
    "Remove": frozenset({"parts"}),
    "Refit": frozenset({"parts"}),
}


def digest_of(procedure: Procedure, known: Mapping[str, Procedure], vehicle: Vehicle | None) -> str:
    """The digest of a procedure; `known` has those that it performs by their id, `vehicle` is its profile."""
    return Digests(known).of(procedure, vehicle)


class Digests:
    """Digests of one manual's procedures; what many of them perform is put into its canonical form once."""

    def __init__(self, known: Mapping[str, Procedure]) -> None:
        self._known = known
        self._content: dict[str, str] = {}

    def of(self, procedure: Procedure, vehicle: Vehicle | None) -> str:
        """The same as `digest_of`."""
        all_of_it = list(_performed(procedure, self._known, ()))
        content = ",".join(map(self._content_of, all_of_it))
        facts = [] if vehicle is None else [list(_facts(one, vehicle)) for one in all_of_it]
        return hashlib.sha256(f"[[{content}],{_json(facts)}]".encode()).hexdigest()[:DIGITS]

    def _content_of(self, procedure: Procedure) -> str:
        if self._known.get(procedure.id) is not procedure:
            return _json(_canonical(procedure))
        if procedure.id not in self._content:
            self._content[procedure.id] = _json(_canonical(procedure))
        return self._content[procedure.id]


def _json(plain: Any) -> str:
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":"), sort_keys=True)


def _performed(procedure: Procedure, known: Mapping[str, Procedure], above: tuple[str, ...]) -> Iterator[Procedure]:
    """A procedure and all that it performs, in the order of its steps, each as often as it is performed."""
    yield procedure
    inside = (*above, procedure.id)
    for step in procedure.steps:
        callee = known.get(step.action.procedure) if isinstance(step.action, actions.Perform) else None
        if callee is not None and callee.id not in inside:
            yield from _performed(callee, known, inside)


def _facts(procedure: Procedure, vehicle: Vehicle) -> Iterator[Any]:
    """What the steps take from the profile: torques and test points."""
    for step in procedure.steps:
        if isinstance(step.action, actions.Tighten):
            for name in step.action.fasteners:
                fastener = vehicle.fasteners.get(name)
                if fastener is not None:
                    yield [name, _canonical(fastener.torque), _canonical(fastener.then_turn)]
        elif isinstance(step.action, actions.ProveDead) and not step.action.pairs:
            circuit = vehicle.circuits.get(step.action.circuit)
            if circuit is not None:
                yield [circuit.id, [_canonical(point.pair) for point in circuit.dead_at]]
        elif isinstance(step.action, actions.ProveSafe) and step.action.limit is None:
            circuit = vehicle.circuits.get(step.action.circuit)
            if circuit is not None:
                yield [circuit.id, [_canonical(one) for one in circuit.safe]]


def _canonical(value: Any) -> Any:
    """Plain data that says the same: maps, lists, texts."""
    if type(value) is str:
        return " ".join(value.split())
    if isinstance(value, Quantity):
        return f"{value.si} {value.quantity}"
    if is_dataclass(value) and not isinstance(value, type):
        return {"": type(value).__name__, **dict(_fields(value))}
    if isinstance(value, Mapping):
        return [[_canonical(key), _canonical(one)] for key, one in value.items()]
    if isinstance(value, tuple | list):
        return [_canonical(one) for one in value]
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, bool | int | None):
        return value
    if isinstance(value, Fraction | Decimal | date):
        return str(value)
    return " ".join(str(value).split())


def _fields(value: Any) -> Iterator[tuple[str, Any]]:
    kind: Any = type(value)
    for name in _names(kind):
        found = getattr(value, name)
        if found is None or found is False or found == () or found == {}:
            continue
        yield name, _canonical(found)


@cache
def _names(of: type) -> tuple[str, ...]:
    """The fields of a class that are content."""
    left_out = _NOT_OF_THE_CONTENT - _CONTENT_OF.get(of.__name__, frozenset())
    return tuple(one.name for one in fields(of) if one.name not in left_out)
