"""The state of every circuit at every step, before it and behind each way out, in words for page and trace."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from .holds import Word, word_of
from .needs import mended
from .passage import Passage, Where
from .plan import Stage
from .state import State
from .survey import Survey, Surveyor
from .transfer import after

#: From the least safe up.
WORDS: tuple[Word, ...] = (
    "not dead", "charged by test", "live", "switched off", "disconnected", "secured", "waited", "proved dead",
)  # fmt: skip

#: The way to a step: its number, behind those of the steps that perform the procedure it stands in.
StepPath = tuple[str, ...]


@dataclass
class Told:
    """A step: for each circuit the least safe word before it and behind each exit; none where it does not get there."""

    before: dict[str, Word] = field(default_factory=dict)
    after: dict[str, dict[str, Word]] = field(default_factory=dict)


def states_told(name: str, surveyor: Surveyor) -> Mapping[StepPath, Told]:
    """For each step of a procedure, and of what it performs, the states; the least safe of all paths and variants."""
    found: dict[StepPath, Told] = {}
    for survey in surveyor.surveys(name):
        for walked in survey.every_circuit.values():
            for where, passage in walked:
                _tell(where, passage, (), survey, surveyor, found)
    return found


def _tell(
    where: Where, passage: Passage, prefix: StepPath, survey: Survey, surveyor: Surveyor, found: dict[StepPath, Told]
) -> None:
    steps = survey.walker.plans[where.procedure].graph.steps
    for index, states in enumerate(passage.before):
        if states:
            stage = survey.walker.stages(where)[index]
            path = (*prefix, steps[index].number)
            told = found.setdefault(path, Told())
            for state in states:
                _note(told.before, where, state, surveyor)
                _behind(where, stage, state, path, survey, surveyor, found)


def _behind(
    where: Where,
    stage: Stage,
    state: State,
    path: StepPath,
    survey: Survey,
    surveyor: Surveyor,
    found: dict[StepPath, Told],
) -> None:
    """The states behind a step, and in what it performs; as if what it asks were met."""
    walker, scene, told = survey.walker, survey.walker.scene(where), found[path]
    for one in mended(stage, state, scene)[1]:
        called = None if stage.callee is None else walker.called(where, stage.callee, one)
        if stage.callee is None:
            for way in stage.ways:
                _note(told.after.setdefault(way.exit, {}), where, after(one, way.effects, scene), surveyor)
        elif called is not None:
            passage = walker.walk(called)
            _tell(called, passage, path, survey, surveyor, found)
            for way in stage.ways:
                for left, _ in passage.exits.get(way.performed, ()):
                    _note(told.after.setdefault(way.exit, {}), where, left, surveyor)


def _note(words: dict[str, Word], where: Where, state: State, surveyor: Surveyor) -> None:
    word = word_of(state, surveyor.rig.known(where.circuit, where.stuck), surveyor.rig)
    known = words.get(where.circuit)
    if known is None or WORDS.index(word) < WORDS.index(known):
        words[where.circuit] = word
