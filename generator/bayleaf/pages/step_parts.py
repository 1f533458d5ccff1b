"""What a step as the page shows it is put together from."""

from dataclasses import dataclass, field

from markupsafe import Markup

from ..model.common import Message
from ..model.procedure import NEXT, Procedure, Step
from .faults import FaultNote
from .show import capital
from .state_words import StateShow
from .states import StepStates, Table

_EXIT_WORDS = {
    "within": "Within limits", "below": "Below", "above": "Above", "not_decided": "Not decided",
    "dead": "Dead", "not_dead": "Not dead", "end": "Done", "exhausted": "Still not, after the last repeat",
    NEXT: "Then",
}  # fmt: skip


def exit_words(exit: str, callee: Procedure | None) -> str:
    """What an exit is called on the page; that of a performed procedure by the conclusion of its `callee`."""
    if callee is not None and exit in callee.conclusions:
        return callee.conclusions[exit].finding
    return _EXIT_WORDS.get(exit, capital(exit))


@dataclass(frozen=True, slots=True)
class Exit:
    """A way out: its words, where it leads as markup, whether it stops the job, and the states that it changes."""

    words: str
    target: Markup | str
    stops: bool
    change: Markup = Markup("")


@dataclass(frozen=True, slots=True)
class StepView:
    """What the template of a step needs. `rows` are pairs of a label and what belongs to it.

    `states` are those of the circuits before it, `gauge` is drawn where a reading decides, `probes` are the
    connectors drawn with their probe points, `drawings` what else is drawn of it, `change` what the step changes where
    there is one way out. `to_write` names what is written down on paper, one line each.
    """

    number: str
    anchor: str
    kind: str
    title: str
    detail: str | None
    messages: tuple[Message, ...]
    rows: tuple[tuple[str, Markup | str], ...]
    pairs: tuple[Markup, ...]
    limit: str
    exits: tuple[Exit, ...]
    expect: str | None
    photo: Markup
    group: str | None
    states: Markup = Markup("")
    change: Markup = Markup("")
    gauge: Markup = Markup("")
    probes: Markup = Markup("")
    drawings: Markup = Markup("")
    faults: tuple[FaultNote, ...] = ()
    to_write: tuple[str, ...] = ()
    inner: Markup = field(default=Markup(""))
    inner_title: str = ""
    inner_url: str = ""
    inner_last: str = ""


@dataclass(frozen=True, slots=True)
class Told:
    """The proved states of a procedure at one place, and how they are shown."""

    show: StateShow
    table: Table

    def of(self, step: Step) -> StepStates | None:
        """The states at a step; nothing where no path leads to it."""
        return self.table.steps.get(step.number)


def role_name(role: str) -> str:
    """What a role is called on the page."""
    return capital(role.replace("-", " "))
