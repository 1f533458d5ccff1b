"""The shape of a file: which keys, which kinds of value. Nothing of what the values mean.

The schema alone says what is right; this module turns the validator's faults into findings.
Two faults are looked for before it runs, because a schema explains them badly: a step without
an action, and a step with two. Such a step is not shown to the schema.
"""

import copy
from typing import Any, NamedTuple

from ..diagnostics.finding import Finding
from ..diagnostics.place import Path
from .schema import FileKind, validator
from .schema_walk import known_keys
from .shape_groups import Error, is_stranger, names_beside, told_with_list, told_with_map
from .shape_steps import faulty_steps
from .shape_words import Shape, describe, nearest, outdented, stranger
from .tree import Source


class Shaped(NamedTuple):
    """`data` without what is faulty (list items None, keys gone), the faults, and where they stand."""

    data: Any
    findings: tuple[Finding, ...]
    broken: tuple[Path, ...]


def check_shape(source: Source, kind: FileKind, doubtful: tuple[Path, ...] = ()) -> Shaped:
    """The shape of one file against the schema of its kind.

    `doubtful` is where the data may not be what was meant: something may be missing there, and texts are left out.
    """
    data = source.data
    if not isinstance(data, dict):
        findings = () if source.findings else (_finding(source, _not_keys(data)),)
        return Shaped({}, findings, ((),))
    check = _Check(source, kind, data, doubtful)
    if kind == "procedure":
        check.steps()
    check.schema()
    check.leave_out_texts()
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


class _Check:
    """One file on its way through the schema. The data is copied before anything is taken out of it."""

    def __init__(self, source: Source, kind: FileKind, data: Any, doubtful: tuple[Path, ...]) -> None:
        self.source, self.kind, self.data, self.doubtful = source, kind, data, doubtful
        self.findings: list[Finding] = []
        self.broken: list[Path] = []
        #: Where a misspelt key that was put right stands in the file, by the path it has now.
        self.renamed: dict[Path, Path] = {}
        self._own_data = False

    def steps(self) -> None:
        """Steps without an action or with two; an empty place is left where they stood."""
        faults = list(faulty_steps(self.data.get("steps"), ("steps",)))
        for path, shape in faults:
            self._copy()
            if shape is not None:
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
            fresh_errors = [error for error in errors if _is_new(error, fresh)]
            for error in self._without_outdented(self._without_strangers(fresh_errors)):
                if not told_with_list(error, told) and not told_with_map(error, told):
                    self._judge(error, renamed, names_beside(error, fresh_errors))
            pruned = [_prune(self.data, error) for error in errors]
            self.renamed.update(renamed)
            fresh = renamed
            if not fresh and not any(pruned):
                return

    def leave_out_texts(self) -> None:
        """Texts that hold more than was meant."""
        for path in self.doubtful:
            if isinstance(_at(self.data, path), str):
                self._copy()
                _take_out(_at(self.data, path[:-1]), path[-1])

    def _copy(self) -> None:
        if not self._own_data:
            self.data, self._own_data = copy.deepcopy(self.data), True

    def _without_strangers(self, errors: list[Error]) -> list[Error]:
        """The errors, without those of entries that stand among other things: of these the first is told."""
        strangers = {error.path: error for error in errors if is_stranger(error, self.kind)}
        sections = {path[:-1]: error for path, error in reversed(strangers.items())}
        for path, error in sections.items():
            shape, belongs = stranger(error.raw.instance, error.path, self.kind)
            self._tell(shape)
            self.broken += [path, (belongs,)]
            errors = [one for one in errors if one.kind != "Required" or one.path or one.raw.kind.property != belongs]
        for path in strangers:
            around = _at(self.data, path[:-1])
            _take_out(around, path[-1])
            if around == {}:
                _take_out(_at(self.data, path[:-2]), path[-2])
        return [error for error in errors if error.path not in strangers]

    def _without_outdented(self, errors: list[Error]) -> list[Error]:
        """The errors, one for a key that stands beside the map which lacks it: it is not indented deep enough."""
        lacking = {
            (*one.path[:-1], one.raw.kind.property): one for one in errors if one.kind == "Required" and one.path
        }
        told: list[Error] = []
        for error in errors:
            if error.kind != "AdditionalProperties" or len(error.raw.kind.unexpected) != 1:
                continue
            lacks = lacking.get((*error.path, error.raw.kind.unexpected[0]))
            if lacks is not None:
                self._tell(outdented(error.raw.kind.unexpected[0], error.path, lacks.path, self.kind))
                self.broken += [error.path, lacks.path]
                told += [error, lacks]
        return [error for error in errors if error not in told]

    def _judge(self, error: Error, renamed: dict[Path, Path], beside: list[str]) -> None:
        if error.path in self.broken and error.kind == "Type":
            return  # the place of a step that was told apart already
        if error.kind == "MinItems" and any(path[: len(error.path)] == error.path for path in self.doubtful):
            return  # an entry may be missing for a slip that is told already
        for shape in describe(error.raw, error.kind, error.path, self.kind, self.data, beside):
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

    def _rename(self, errors: list[Error]) -> dict[Path, Path]:
        """Puts misspelt keys right in the data; gives the new paths with the old ones."""
        renamed: dict[Path, Path] = {}
        missing: dict[Path, list[str]] = {}
        for error in errors:
            if error.kind == "Required":
                missing.setdefault(error.path, []).append(error.raw.kind.property)
        for error in errors:
            target = _at(self.data, error.path)
            if error.kind != "AdditionalProperties" or not isinstance(target, dict):
                continue
            known = list(known_keys(self.kind, error.path, target))
            for key in error.raw.kind.unexpected:
                meant = nearest(key, known, _LIKE_ENOUGH)
                if meant is None and nearest(key, known) in missing.get(error.path, ()):
                    meant = nearest(key, known)  # what it is like is asked for, and is not there
                if meant and key in target and meant not in target:
                    target[meant] = target[key]
                    renamed[(*error.path, meant)] = (*error.path, key)
        return renamed


def _located(error: Any, data: Any) -> Error:
    """The error with its true path: the validator gives a key that looks like a number as that number."""
    path: list[str | int] = []
    for key in error.instance_path:
        if isinstance(data, dict) and isinstance(key, int):
            alike = [name for name in data if name.lstrip("+").isdecimal() and int(name) == key]
            key = next((name for name in alike if data[name] == error.instance), alike[0])
        path.append(key)
        data = data[key]
    return Error(tuple(path), type(error.kind).__name__.rsplit("_", 1)[-1], error)


def _is_new(error: Error, fresh: dict[Path, Path] | None) -> bool:
    """Whether an error lies where nothing has been looked at before: under keys that were just put right."""
    if fresh is None:
        return True
    if error.kind == "Required":
        return any(error.path[: len(new) - 1] == new[:-1] for new in fresh)
    return any(error.path[: len(new)] == new for new in fresh)


def _finding(source: Source, shape: Shape) -> Finding:
    place = source.place(shape.path, key=shape.at_key)
    return Finding(shape.rule, place, shape.message, shape.because, shape.help)


def _put(data: Any, path: Path, value: Any) -> None:
    target = _at(data, path[:-1])
    if _holds(target, path[-1]):
        target[path[-1]] = value


def _prune(data: Any, error: Error) -> bool:
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


#: Definitions of values whose own parser tells a fault better than their pattern does.
_PARSED_LATER = frozenset({"quantity", "quantity_or_none", "limit", "value", "value_if_known"})


def _is_parsed_later(error: Any) -> bool:
    """Whether the value's own parser explains the fault better (numbers with units, limits)."""
    return error.schema_path[:1] == ["$defs"] and error.schema_path[1] in _PARSED_LATER
