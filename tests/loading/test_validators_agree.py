"""The fast validator and the reference one find the same faults; whatever they find, a file can be read on."""

import copy
import json
import random
import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from bayleaf import folders
from bayleaf.diagnostics.place import Place
from bayleaf.loading import load
from bayleaf.loading.reader import Reader
from bayleaf.loading.schema import validator
from bayleaf.loading.shape import check_shape
from bayleaf.loading.tree import read_source
from bayleaf.manual_files import find_files
from bayleaf.rules.rule import all_rules
from kit import BASES, ISOLATION, completed
from referencing import Registry, Resource
from thinned import IS_CAMPAIGN

KINDS = ("vehicle", "procedure", "workshop", "record")
CHECKOUT = Path(__file__).parents[2]
_EXAMPLE = re.compile(r"^```yaml (?:fails|passes) (\w+)( whole)?\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_KEYWORDS = {"Required": "required", "dependentRequired": "required"}


def _schema(name: str) -> Any:
    return json.loads((folders.schema() / f"{name}.schema.json").read_text(encoding="utf-8"))


_REGISTRY = Registry().with_resources(
    [(f"{name}.schema.json", Resource.from_contents(_schema(name))) for name in ("common", *KINDS)]
)
REFERENCE = {
    kind: jsonschema.Draft202012Validator({"$ref": f"{kind}.schema.json"}, registry=_REGISTRY) for kind in KINDS
}


def _data(text: str) -> Any:
    return read_source("x.yml", text.encode()).data


@cache
def bases() -> list[tuple[str, Any]]:
    """The files of the small manual, those of the demo manual, and every example of a page that can be read."""
    found = [(kind, _data(text)) for kind, text in BASES.items()]
    found.append(("procedure", _data(ISOLATION)))
    found += [
        (kind, _data(text if whole else completed(text, BASES[kind])))
        for rule in all_rules() for kind, whole, text in _EXAMPLE.findall(rule.page)
    ]  # fmt: skip
    found += [(file.kind, _data((CHECKOUT / file.path).read_text("utf-8"))) for file in find_files(CHECKOUT).files]
    return [(kind, data) for kind, data in found if isinstance(data, dict)]


def _part(part: Any) -> Any:
    """The fast validator gives a key that looks like a number as that number."""
    return int(part) if isinstance(part, str) and re.fullmatch("[+]?[0-9]+", part) else part


def fast(kind: str, data: Any) -> set[tuple[Any, ...]]:
    """Path and keyword of each fault, as the fast validator tells them."""
    found = set()
    for error in validator(kind).iter_errors(data):  # type: ignore[arg-type]
        name = type(error.kind).__name__.rsplit("_", 1)[-1]
        found.add((*map(_part, error.instance_path), _KEYWORDS.get(name, name[0].lower() + name[1:])))
    return found


def reference(kind: str, data: Any) -> set[tuple[Any, ...]]:
    """The same, as the reference validator tells them."""
    found = set()
    for error in REFERENCE[kind].iter_errors(data):
        name = "propertyNames" if "propertyNames" in error.absolute_schema_path else error.validator
        found.add((*map(_part, error.absolute_path), _KEYWORDS.get(name, name)))
    return found


def _places(data: Any, above: Any = None, key: Any = None) -> Iterator[tuple[Any, Any]]:
    """Every map or list with every key or index in it."""
    if above is not None:
        yield above, key
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for name, value in inner:
        yield from _places(value, data, name)


#: What is put where something else belongs.
STRANGE = (None, "", "x", "5 V", "none", "yes", "0", "²", "2026-02-30", [], {}, [None], ["x"], [[]], [["x", "y"]],
           {"x": "y"}, [{"x": "y"}], {"mode": "off"}, {"1": "x", "01": "x"}, {"at_least": "5 V"})  # fmt: skip


def mutated(data: Any, chance: random.Random) -> Any:
    """A copy with one to three things changed."""
    data = copy.deepcopy(data)
    for _ in range(chance.randint(1, 3)):
        places = list(_places(data))
        if not places:
            return data
        above, key = chance.choice(places)
        change = chance.randrange(6)
        if change == 0:
            del above[key]
        elif change == 1 and isinstance(above, dict):
            above[key[:-1] + chance.choice("esx1")] = above.pop(key)
        elif change == 2:
            other, other_key = chance.choice(places)
            if other_key in other if isinstance(other, dict) else other_key < len(other):
                above[key] = copy.deepcopy(other[other_key])
        elif change == 3 and isinstance(above, list):
            above.append(copy.deepcopy(above[key]))
        else:
            above[key] = copy.deepcopy(chance.choice(STRANGE))
    return data


def many(count: int, seed: int) -> Iterator[tuple[str, Any]]:
    """Mutated trees, made of small files and large ones alike."""
    chance = random.Random(seed)
    known = [base for base in bases() if len(json.dumps(base[1])) < 8_000]
    for number in range(count):
        kind, data = known[number % len(known)]
        yield kind, mutated(data, chance)


@pytest.mark.parametrize("kind", KINDS)
def test_both_find_nothing_in_what_is_right_and_the_same_in_what_is_not(kind: str) -> None:
    """Every base file, every example, the whole demo manual."""
    known = [data for found, data in bases() if found == kind]

    assert known
    for data in known:
        assert reference(kind, data) == fast(kind, data)


def test_both_find_the_same_in_mutated_trees() -> None:
    """Compared are the path and the keyword of every fault."""
    keywords: Counter[str] = Counter()
    for kind, data in many(8_000 if IS_CAMPAIGN else 800, seed=1):
        found = fast(kind, data)
        keywords.update(fault[-1] for fault in found)

        assert reference(kind, data) == found

    assert {"additionalProperties", "required", "enum", "type", "pattern", "propertyNames", "minItems", "minLength",
            "minProperties", "maxItems", "anyOf"} <= keywords.keys()  # fmt: skip


class Tree:
    """Stands for a source: values without places."""

    def __init__(self, data: Any) -> None:
        self.data, self.findings, self.renamed = data, (), {}

    def place(self, path: Any, start: Any = None, end: Any = None, key: bool = False) -> Place:
        """Some place."""
        return Place("x.yml", 1, 1, 1, 1)


FILES = {"vehicle": "procedures/v/vehicle.yml", "procedure": "procedures/v/job.yml",
         "workshop": "procedures/workshop.yml", "record": "records/1.yml"}  # fmt: skip


def _left(kind: str, data: Any) -> Iterator[str]:
    """The keywords of the faults that are left; a list item that was taken out is None and stays in its place."""
    for error in validator(kind).iter_errors(data):  # type: ignore[arg-type]
        if error.instance is not None:
            name = type(error.kind).__name__.rsplit("_", 1)[-1]
            yield _KEYWORDS.get(name, name[0].lower() + name[1:])


def test_what_is_left_of_a_faulty_tree_fits_the_schema_and_can_be_read() -> None:
    """Left over may be only what is missing, and texts that the parsers of values judge."""
    # `anyOf`: a step without an action, told by itself
    told, count = 0, 20_000 if IS_CAMPAIGN else 1_500
    for kind, data in many(count, seed=2):
        before = copy.deepcopy(data)
        shaped = check_shape(Tree(data), kind)  # type: ignore[arg-type]
        reader = Reader(Tree(data), shaped.broken)  # type: ignore[arg-type]
        load._READERS[kind](shaped.data, reader, FILES[kind])
        told += bool(shaped.findings)

        assert before == data, "the author's data is never changed"
        assert fast(kind, data) == set() or shaped.findings or reader.findings
        assert {"required", "pattern", "anyOf"} >= set(_left(kind, shaped.data))

    assert count / 2 <= told
