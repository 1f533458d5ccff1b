"""The trace of a procedure as text: every step with the states of the circuits before it, and behind each way out."""

from collections.abc import Iterator, Mapping

from ..model.actions import Perform
from ..model.procedure import Procedure, Step
from .holds import Word
from .survey import Surveyor
from .told import StepPath, Told, states_told

_HEAD = (
    "The least safe state that any path, and any variant of the vehicle, can bring; behind a step as if all that it "
    "asks were met."
)


def trace_text(name: str, surveyor: Surveyor) -> str:
    """The whole trace of a procedure, and of what it performs, one block a step."""
    procedure = surveyor.procedures[name]
    told = states_told(name, surveyor)
    steps = dict(_steps(procedure, surveyor, (), ()))
    blocks = [f"{name}: {procedure.title}\n{_HEAD}"]
    blocks += [_block(path, steps[path], told[path]) for path in sorted(told, key=_order) if path in steps]
    return "\n\n".join(blocks) + "\n"


def _steps(
    procedure: Procedure, surveyor: Surveyor, prefix: StepPath, callers: tuple[str, ...]
) -> Iterator[tuple[StepPath, Step]]:
    """Every step by its path, those of performed procedures behind the step that performs them."""
    for step in procedure.steps:
        path = (*prefix, step.number)
        yield path, step
        if isinstance(step.action, Perform) and step.action.procedure not in (*callers, procedure.id):
            callee = surveyor.procedures.get(step.action.procedure)
            if callee is not None:
                yield from _steps(callee, surveyor, path, (*callers, procedure.id))


def _order(path: StepPath) -> tuple[int, ...]:
    return tuple(int(part) for number in path for part in number.split("."))


def _block(path: StepPath, step: Step, told: Told) -> str:
    name = f" ({step.id})" if step.id is not None else ""
    lines = [f"{'.'.join(path)}  {step.action.key}{name}"]
    width = max(len("before"), *(len(exit) for exit in told.after), 0) if told.after else len("before")
    lines.append(f"    {'before':<{width}}  {_words(told.before)}")
    for exit, words in told.after.items():
        label = "then" if exit == "next" else exit
        changed = {circuit: word for circuit, word in words.items() if told.before.get(circuit) != word}
        lines.append(f"    {label:<{width}}  {_words(changed) if changed else 'as before'}")
    return "\n".join(lines)


def _words(words: Mapping[str, Word]) -> str:
    return "; ".join(f"{circuit}: {word}" for circuit, word in words.items())
