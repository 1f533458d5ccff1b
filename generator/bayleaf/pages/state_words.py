"""How a state is shown: its word, and a symbol of its own that is told apart by form alone."""

from collections.abc import Iterable, Mapping
from functools import cache

from markupsafe import Markup, escape

from ..model.vehicle import Circuit, Vehicle
from ..safety.holds import Word
from ..safety.rig import category_of
from ..safety.told import WORDS
from .states import StepStates, Words

#: Other energies are not live and are not proved dead: the same states by the words that fit them. That the vehicle is
#: switched off says nothing of them while a source is on.
_OF_OTHERS: Mapping[Word, str] = {
    "live": "not safe", "switched off": "not safe", "disconnected": "taken off", "secured": "secured",
    "waited": "taken off, not read", "proved dead": "safe", "charged by test": "not safe", "not dead": "found not safe",
}  # fmt: skip
#: What each word means, for the reader.
MEANINGS: Mapping[Word, str] = {
    "not dead": "read, and found not dead: hands off, stop",
    "charged by test": "a test voltage was on it and it has not been discharged and read",
    "live": "nothing is switched off, or nothing is known",
    "switched off": "the vehicle is off; nothing is disconnected yet",
    "disconnected": "every source is off, but could be put back",
    "secured": "every source is off and locked; it may still be charged",
    "waited": "locked, and the waiting time is over; not yet measured",
    "proved dead": "locked, waited, and read dead at every pair of test points",
}
#: Those that nobody touches.
GRAVE: frozenset[Word] = frozenset({"live", "not dead", "charged by test"})

_FLASH = "M20 0L8 8h6l-2 6 14-9h-7z"
_TICK = "M10 7l5 4 9-8"


def _bars(count: int) -> str:
    full, open_ = (
        "".join(f"M{1 + 6.6 * index:g} 1h4.6v12h-4.6z" for index in bars) for bars in (range(count), range(count, 5))
    )
    return f'<path d="{full}"/><path class="bl-hollow" d="{open_}"/>'


_FORMS: Mapping[Word, str] = {
    "live": f'<path d="{_FLASH}"/>',
    "charged by test": f'<path class="bl-hollow" d="M1 1h32v12H1z"/><path d="{_FLASH}"/>',
    "not dead": '<path class="bl-stroke" d="M6 1l22 12M6 13L28 1"/>',
    "switched off": _bars(1),
    "disconnected": _bars(2),
    "secured": _bars(3),
    "waited": _bars(4),
    "proved dead": f'<rect width="34" height="14" rx="3"/><path class="bl-tick" d="{_TICK}"/>',
}


@cache
def state_html(word: Word, said: str) -> Markup:
    """The symbol with its word, written out each time: browsers are slow at `<use>`, of which a page had hundreds."""
    if said == _OF_OTHERS["live"]:
        word = "live"
    grave = " bl-grave" if word in GRAVE else " bl-dead" if word == "proved dead" else ""
    symbol = f'<svg viewBox="0 0 34 14" aria-hidden="true">{_FORMS[word]}</svg>'
    return Markup(f'<span class="bl-state{grave}">{symbol}{escape(said)}</span>')


def word_said(word: Word, circuit: Circuit | None) -> str:
    """The word for a state of this circuit."""
    return word if circuit is None or circuit.energy == "electrical" else _OF_OTHERS[word]


def legend() -> tuple[tuple[Markup, str], ...]:
    """Every state with what it means, from the safest down."""
    return tuple((state_html(word, word), MEANINGS[word]) for word in reversed(WORDS))


class StateShow:
    """Shows the states of one vehicle's circuits; what was written once is kept."""

    def __init__(self, vehicle: Vehicle) -> None:
        self.vehicle = vehicle
        self.order = tuple(vehicle.circuits)
        self.dangerous = frozenset(name for name, one in vehicle.circuits.items() if category_of(one) != "low")
        self._sealed = frozenset(name for name, one in vehicle.circuits.items() if one.sealed_in)
        self._lines: dict[tuple[tuple[str, Word, Word], ...], Markup] = {}

    def before(self, states: StepStates, seen: Words | None, everything: bool = False) -> Markup:
        """What holds before a step, as far as it is touched or is not what the reader has just seen."""
        shown = []
        for name in self.order:
            word = states.before.get(name)
            if word is None:
                continue
            fresh = name in self.dangerous and (
                everything if name in self._sealed else (everything or seen is None or seen.get(name) != word)
            )
            if fresh or name in states.touched:
                shown.append((name, word, word))
        return self.items(shown)

    def changes(self, states: StepStates, exit: str) -> Markup:
        """What an exit changes."""
        behind = states.after.get(exit, {})
        shown = []
        for name in self.order:
            word, old = behind.get(name), states.before.get(name)
            if word is None or old is None or word == old:
                continue
            circuit = self.vehicle.circuits[name]
            if word_said(word, circuit) == word_said(old, circuit):
                continue
            if name in self.dangerous or name in states.touched:
                shown.append((name, old, word))
        return self.items(shown)

    def words(self, words: Words) -> Markup:
        """The states of all dangerous circuits, one after the other."""
        return self.items(
            (name, words[name], words[name])
            for name in self.order
            if name in words and name in self.dangerous and name not in self._sealed
        )

    def items(self, shown: Iterable[tuple[str, Word, Word]]) -> Markup:
        """List items, circuits that share their words together."""
        key = tuple(shown)
        found = self._lines.get(key)
        if found is None:
            together: dict[tuple[Word, Word, bool], list[str]] = {}
            for name, old, new in key:
                other = self.vehicle.circuits[name].energy != "electrical"
                together.setdefault((old, new, other), []).append(name)
            found = self._lines[key] = Markup("").join(
                self._item(names, old, new) for (old, new, _), names in together.items()
            )
        return found

    def _item(self, names: list[str], old: Word, new: Word) -> Markup:
        circuits = [self.vehicle.circuits[name] for name in names]
        state = state_html(new, word_said(new, circuits[0]))
        if old != new:
            state = Markup('{} <span class="bl-arrow">→</span> {}').format(
                state_html(old, word_said(old, circuits[0])), state
            )
        return Markup("<li><span>{}:</span> {}</li>").format(", ".join(one.name for one in circuits), state)
