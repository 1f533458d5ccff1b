"""The shape of a file: which keys, which kinds of value. Nothing of what the values mean.

The schema alone says what is right; this module turns the validator's faults into findings.
Two faults are looked for before it runs, because a schema explains them badly: a step without
an action, and a step with two. Such a step is not shown to the schema.
"""

import copy
from collections.abc import Iterator
from typing import Any, NamedTuple

from ..diagnostics.finding import Finding
from ..diagnostics.place import Path
from .schema import FileKind, action_keys, step_schema, validator
from .schema_walk import known_keys
from .shape_words import Shape, describe, nearest
from .tree import Source


class Shaped(NamedTuple):
    """`data` without what is faulty (list items None, keys gone), the faults, and where they stand."""

    data: Any
    findings: tuple[Finding, ...]
    broken: tuple[Path, ...]


def check_shape(source: Source, kind: FileKind) -> Shaped:
    """The shape of one file against the schema of its kind."""
    data = source.data
    if not isinstance(data, dict):
        findings = () if source.findings else (_finding(source, _not_keys(data)),)
        return Shaped({}, findings, ((),))
    check = _Check(source, kind, data)
    if kind == "procedure":
        check.steps()
    check.schema()
    source.renamed.update(check.renamed)
    return Shaped(check.data, tuple(check.findings), tuple(check.broken))


def _not_keys(data: Any) -> Shape:
    message = f"this file holds {'a list' if isinstance(data, list) else 'only text'}, not keys with values"
    help_ = "begin with `format: 1`, each key at the left edge, a colon and a space behind it"
    return Shape("wrong-shape", (), message, None, help_)


#: How often a file is looked at: again after a misspelt key was put right or a faulty value taken out.
_ROUNDS = 8
#: In so many rounds misspelt keys are put right; more would only be of use after more misspelling.
_MENDING = 5
#: So like a known key must a misspelt one be to be read as that: to suggest it, less will do.
_LIKE_ENOUGH = 0.75


class _Error(NamedTuple):
    """An error of the validator, and the true path to what it is about."""

    path: Path
    kind: str
    raw: Any


class _Check:
    """One file on its way through the schema. The data is copied before anything is taken out of it."""

    def __init__(self, source: Source, kind: FileKind, data: Any) -> None:
        self.source, self.kind, self.data = source, kind, data
        self.findings: list[Finding] = []
        self.broken: list[Path] = []
        #: Where a misspelt key that was put right stands in the file, by the path it has now.
        self.renamed: dict[Path, Path] = {}
        self._own_data = False

    def steps(self) -> None:
        """Steps without an action or with two; an empty place is left where they stood."""
        faults = list(_faulty_steps(self.data.get("steps"), ("steps",)))
        for path, shape in faults:
            self._copy()
            self._tell(shape)
            self.broken.append(path)
            _put(self.data, path, None)

    def schema(self) -> None:
        """The faults the schema sees.

        A misspelt key whose meaning is plain is read as what was meant, so that one slip of the keyboard is
        one fault; what stands under it has not been looked at then, hence another round.
        """
        fresh: dict[Path, Path] | None = None
        for number in range(_ROUNDS):
            errors = [_located(error, self.data) for error in validator(self.kind).iter_errors(self.data)]
            if not errors:
                return
            self._copy()
            renamed = self._rename(errors) if number < _MENDING else {}
            told: set[tuple[Path, str]] = set()
            for error in errors:
                if _is_new(error, fresh) and not _told_with_list(error, told):
                    self._judge(error, renamed)
            pruned = [_prune(self.data, error) for error in errors]
            self.renamed.update(renamed)
            fresh = renamed
            if not fresh and not any(pruned):
                return

    def _copy(self) -> None:
        if not self._own_data:
            self.data, self._own_data = copy.deepcopy(self.data), True

    def _judge(self, error: _Error, renamed: dict[Path, Path]) -> None:
        if error.path in self.broken and error.kind == "Type":
            return  # the place of a step that was told apart already
        for shape in describe(error.raw, error.kind, error.path, self.kind, self.data):
            if shape.rule == "missing-key" and any(new[:-1] == error.path for new in renamed):
                continue  # perhaps it is the misspelt one; if not, the next round tells
            self._tell(shape)
            if shape.path not in renamed.values():
                self.broken.append(error.path)

    def _tell(self, shape: Shape) -> None:
        path = shape.path
        for new, old in self.renamed.items():
            if path[: len(new)] == new:
                path = (*old, *path[len(new) :])
        self.findings.append(_finding(self.source, shape._replace(path=path)))

    def _rename(self, errors: list[_Error]) -> dict[Path, Path]:
        """Puts misspelt keys right in the data; gives the new paths with the old ones."""
        renamed: dict[Path, Path] = {}
        for error in errors:
            target = _at(self.data, error.path)
            if error.kind != "AdditionalProperties" or not isinstance(target, dict):
                continue
            known = list(known_keys(self.kind, error.path, target))
            for key in error.raw.kind.unexpected:
                meant = nearest(key, known, _LIKE_ENOUGH)
                if meant and key in target and meant not in target:
                    target[meant] = target[key]
                    renamed[(*error.path, meant)] = (*error.path, key)
        return renamed


def _located(error: Any, data: Any) -> _Error:
    """The error with its true path: the validator gives a key that looks like a number as that number."""
    path: list[str | int] = []
    for key in error.instance_path:
        if isinstance(data, dict) and isinstance(key, int):
            alike = [name for name in data if name.lstrip("+").isdecimal() and int(name) == key]
            key = next((name for name in alike if data[name] == error.instance), alike[0])
        path.append(key)
        data = data[key]
    return _Error(tuple(path), type(error.kind).__name__.rsplit("_", 1)[-1], error)


def _is_new(error: _Error, fresh: dict[Path, Path] | None) -> bool:
    """Whether an error lies where nothing has been looked at before: under keys that were just put right."""
    if fresh is None:
        return True
    if error.kind == "Required":
        return any(error.path[: len(new) - 1] == new[:-1] for new in fresh)
    return any(error.path[: len(new)] == new for new in fresh)


def _told_with_list(error: _Error, told: set[tuple[Path, str]]) -> bool:
    """Whether an item of the same list has the same fault: who writes `[yes, no]` makes one mistake."""
    value = error.raw.instance
    if error.kind != "Type" or not error.path or isinstance(error.path[-1], str) or value is None:
        return False
    mark = error.path[:-1], type(value).__name__
    if mark in told:
        return True
    told.add(mark)
    return False


def _finding(source: Source, shape: Shape) -> Finding:
    place = source.place(shape.path, key=shape.at_key)
    return Finding(shape.rule, place, shape.message, shape.because, shape.help)


def _faulty_steps(steps: Any, at: Path) -> Iterator[tuple[Path, Shape]]:
    """Steps with no action or with two, those inside `for_each` included."""
    if not isinstance(steps, list):
        return
    for index, step in enumerate(steps):
        path = (*at, index)
        if not isinstance(step, dict):
            continue
        actions = [key for key in step if key in action_keys()]
        if len(actions) > 1:
            yield path, _two_actions(path, actions)
        elif not actions and (shape := _no_action(path, step)):
            yield path, shape
        elif "for_each" in step:
            yield from _faulty_steps(step.get("steps"), (*path, "steps"))


def _two_actions(path: Path, actions: list[str]) -> Shape:
    first, second = actions[:2]
    message = f"`{second}` is a second action in this step, beside `{first}`"
    because = "a step does one thing, so that it can be ticked off and its effect is known"
    help_ = f"put a dash before it, so that it is a step of its own: `- {second}: …`"
    return Shape("two-actions-in-one-step", (*path, second), message, because, help_, at_key=True)


def _no_action(path: Path, step: dict[str, Any]) -> Shape | None:
    """A step without an action; one in words alone passes, unless an action beside it is misspelt."""
    unknown = [key for key in step if key not in step_schema()["properties"]]
    for key in unknown:
        meant = nearest(key, action_keys())
        if meant:
            message = f"`{key}` is no action of a step"
            help_ = f"did you mean `{meant}`?"
            return Shape("step-without-action", (*path, key), message, None, help_, at_key=True)
    if "do" in step:
        return None
    message = "this step does not say what is done"
    if unknown:
        message = f"`{unknown[0]}` is no action of a step, and the step has no other"
    help_ = "say it in words with `do: …`, or name an action such as `measure`, `disconnect`, `tighten`"
    where = (*path, unknown[0]) if unknown else path
    return Shape("step-without-action", where, message, None, help_, at_key=bool(unknown))


def _put(data: Any, path: Path, value: Any) -> None:
    target = _at(data, path[:-1])
    if _holds(target, path[-1]):
        target[path[-1]] = value


def _prune(data: Any, error: _Error) -> bool:
    """Takes out what a fault is about, so that what is left can be read without surprises."""
    if error.kind == "Required" or error.kind == "Pattern" and _is_parsed_later(error.raw):
        return False
    if error.kind in ("AdditionalProperties", "PropertyNames"):
        target = _at(data, error.path)
        unexpected = error.kind == "AdditionalProperties"
        names = error.raw.kind.unexpected if unexpected else [error.raw.kind.error.instance]
        return any([_take_out(target, name) for name in names])
    return bool(error.path) and _take_out(_at(data, error.path[:-1]), error.path[-1])


def _take_out(target: Any, key: str | int) -> bool:
    """Takes a key out of a map, or puts None in the place of a list item; False where that was done before."""
    if not _holds(target, key):
        return False
    if isinstance(target, dict):
        del target[key]
        return True
    taken = target[key] is not None
    target[key] = None
    return taken


def _at(data: Any, path: Path) -> Any:
    for key in path:
        if not _holds(data, key):
            return None
        data = data[key]
    return data


def _holds(target: Any, key: str | int) -> bool:
    if isinstance(target, dict):
        return key in target
    return isinstance(target, list) and isinstance(key, int) and key < len(target)


def _is_parsed_later(error: Any) -> bool:
    """Whether the value's own parser explains the fault better (numbers with units, limits)."""
    return error.schema_path[:2] in (["$defs", "quantity"], ["$defs", "limit"], ["$defs", "value"])
