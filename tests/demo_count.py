"""Which constructs of the format the demo uses, and where each rule is shown to fire.

A construct is a key of the schemas, a word of one of their closed lists, or an exit of an action; it is counted once,
however many files use it. `python -m demo_count` in the folder of the tests prints all of them. Exit code 1 where the demo
leaves one unused, or a rule never fires.
"""

import re
import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, get_args

from bayleaf.loading.load import load
from bayleaf.loading.schema import FileKind, schema, step_schema
from bayleaf.loading.schema_walk import resolved
from bayleaf.loading.tree import Source
from bayleaf.manual_files import find_files
from bayleaf.rules.rule import Rule, all_rules
from kit import EXAMPLE
from mistakes.reading import all_mistakes

ROOT = Path(__file__).resolve().parents[1]
Node = dict[str, Any]

#: Two files that belong together and fail together, as a page shows them one after the other.
BESIDE = re.compile(
    r"^```yaml fails beside (\w+)\n(.*?)^```\n\n```yaml fails beside (\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL
)
#: What no text can show; the test makes such a file.
NOT_AS_TEXT = frozenset({"file-not-opened", "file-too-large"})
#: Keys whose list counts with the key, not word by word, and why.
WITH_THE_KEY = {
    "protection.class": "designations out of a standard's table (IEC 60903), as thread sizes and property classes are",
    "policy.allow_vin": "a manual has one workshop and so one policy: of yes and no it can never hold both",
}


def constructs() -> frozenset[str]:
    """Every construct that the schemas have."""
    return frozenset(one for kind in get_args(FileKind) for one in _of(schema(kind), kind, kind, set()))


def _of(node: Node, kind: FileKind, owner: str, done: set[tuple[str, str]]) -> Iterator[str]:
    node = resolved(node, kind)
    name = node.get("x-name", owner)
    if (owner, repr(node)) in done:  # a step may hold steps
        return
    done.add((owner, repr(node)))
    if owner not in WITH_THE_KEY:
        yield from (f"{owner} = {word}" for word in _words(node))
    yield from (f"{owner}: {word}" for word in _words(node.get("propertyNames", {})))
    if name == "step":
        yield from (f"{action} > {exit}" for action in node["dependentSchemas"] for exit in _exits(action))
    for key, inner in node.get("properties", {}).items():
        yield f"{name}.{key}"
        yield from _of(inner, kind, f"{name}.{key}", done)
    for key in ("items", "additionalProperties"):
        if isinstance(node.get(key), dict):
            yield from _of(node[key], kind, owner, done)


def used(data: Any, node: Node, kind: FileKind, owner: str) -> Iterator[str]:
    """The constructs in the data of one file, found by the schema of that place."""
    node = resolved(node, kind)
    name = node.get("x-name", owner)
    if isinstance(data, Mapping):
        if name == "step":
            yield from _exits_used(data)
        known = node.get("properties", {})
        for key, value in data.items():
            if key in known:
                yield f"{name}.{key}"
                yield from used(value, known[key], kind, f"{name}.{key}")
            else:
                if key in _words(node.get("propertyNames", {})):
                    yield f"{owner}: {key}"
                yield from used(value, node["additionalProperties"], kind, owner)
    elif isinstance(data, list):
        for one in data:
            yield from used(one, node.get("items", node), kind, owner)
    elif "enum" in node and owner not in WITH_THE_KEY:
        yield f"{owner} = {data}"


def _words(node: Node) -> tuple[str, ...]:
    return tuple(word for word in node.get("enum", ()) if isinstance(word, str))


def _exits(action: str) -> tuple[str, ...]:
    of_action = step_schema()["dependentSchemas"].get(action, {}).get("properties", {}).get("outcomes", {})
    return tuple(of_action.get("propertyNames", {}).get("enum", ()))


def _exits_used(step: Mapping[str, Any]) -> Iterator[str]:
    outcomes = step.get("outcomes")
    for action in step_schema()["x-actions"]:
        if action in step and isinstance(outcomes, Mapping):
            yield from (f"{action} > {exit}" for exit in outcomes if exit in _exits(action))


def of_demo(root: Path = ROOT) -> Counter[str]:
    """The constructs of all files of the demo, each with the number of its places."""
    found: Counter[str] = Counter()
    for file in find_files(root).files:
        if file.kind == "page":
            continue
        source = load(file.path, (root / file.path).read_bytes(), file.kind).source
        assert isinstance(source, Source)
        found.update(used(source.data, schema(file.kind), file.kind, file.kind))
    return found


def fires() -> dict[str, tuple[int, int, int]]:
    """For each rule: failing examples on its page, files of mistakes, tests that name it in what they expect."""
    mistakes = Counter(rule for one in all_mistakes() for rule in one.fields.get("rule", ()))
    texts = [path.read_text(encoding="utf-8") for path in sorted(ROOT.glob("tests/**/test_*.py"))]
    return {
        rule.name: (failing(rule), mistakes[rule.name], sum(f'"{rule.name}"' in text for text in texts))
        for rule in all_rules()
    }


def failing(rule: Rule) -> int:
    """How many examples on the page of a rule are held to fail; two files that belong together are one."""
    return sum(found[0] == "fails" for found in EXAMPLE.findall(rule.page)) + len(BESIDE.findall(rule.page))


def main() -> int:
    """Prints the counts."""
    every, found, rules = constructs(), of_demo(), fires()
    for one in sorted(every & found.keys()):
        print(f"{found[one]:5} {one}")
    for one in sorted(every - found.keys()):
        print(f"    – {one}")
    print(f"\n{len(every & found.keys())} of {len(every)} constructs are used in the demo\n")
    for name, (examples, mistakes, tests) in rules.items():
        print(f"{examples:3} examples {mistakes:3} mistakes {tests:3} tests  {name}")
    silent = {name for name, counts in rules.items() if not any(counts)} - NOT_AS_TEXT
    print(f"\n{len(rules) - len(silent)} of {len(rules)} rules fire; not: {', '.join(sorted(silent)) or 'none'}")
    return int(bool(silent or every - found.keys()))


if __name__ == "__main__":
    sys.exit(main())
