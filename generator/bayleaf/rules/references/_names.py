"""Looks every name that a file uses up in the vehicle profile, and words what is wrong.

A name that exists but is of another kind is reported by the rule of the kind that is meant. Nothing is
said where the profile is missing or cannot be read.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from ...diagnostics.place import Path
from ...loading.shape_words import nearest
from ...model.actions import FitTemporary
from ...model.common import MODE_OFF
from ...model.contact import Contact, read_contact
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault, Spot
from ..once import once
from ._meant import MEANT, SECTION_OF, in_brackets, in_words, rule_of, with_article
from ._memo import of_last
from ._profile import Found, Profile, profile_in
from ._uses import Use, uses_of, uses_of_step

#: How like a name of another kind has to be before it is taken for the one that was meant.
_OF_ANOTHER_KIND = 0.85
_IDENTIFIER = re.compile(r"[a-z0-9-]+")

#: Up to how many names a help lists instead of telling where they stand.
_LISTED = 8

#: What the keys of actions are for, told where a name of another kind stands under one.
_WAYS = {
    "isolation point": "an isolation point is opened and closed with `disconnect` and `reconnect`",
    "connector": "a connector is parted and joined with `unplug` and `plug`",
    "part": "a part is taken off and put back with `remove` and `refit`",
    "fastener": "a fastener is undone and done up with `loosen` and `tighten`",
}
_ACTION_KEYS = frozenset(
    {
        "disconnect", "reconnect", "secure", "release", "unplug", "plug",
        "remove", "refit", "loosen", "tighten", "open", "close",
    }
)  # fmt: skip

Checks = Callable[[Any, Case], Iterable[Fault]]


def checks(rule: str) -> Checks:
    """The check of one of the rules about names, for procedures, profiles and records alike."""

    def check(model: Any, case: Case) -> Iterable[Fault]:
        return wrong_names(model, case).get(rule, ())

    return check


@of_last
def wrong_names(model: Any, case: Case) -> Mapping[str, tuple[Fault, ...]]:
    """The faults of all names in a file, by the rule that reports them."""
    profile = profile_in(case)
    if profile is None:
        return {}
    found: dict[str, list[Fault]] = {}
    for rule, fault in _wrong(model, profile):
        found.setdefault(rule, []).append(fault)
    return {rule: tuple(once(faults, model.file)) for rule, faults in found.items()}


def _wrong(model: Any, profile: Profile) -> Iterator[tuple[str, Fault]]:
    fitted = _fitted(model) if isinstance(model, Procedure) else frozenset()
    for name, meant, at in _unknown(uses_of(model), profile):
        if meant != "what stays off" or name not in fitted:
            yield from _explained(name, meant, at, profile)
    if not isinstance(model, Procedure):
        return
    groups = _unknown_places(model.steps, profile)
    for place, at in groups.items():
        yield from _explained(place, "place of a group", at, profile)
    for step in model.steps:
        uses = uses_of_step(step)
        if _all_known(uses, profile) or step.broken:
            continue
        for name, meant, at in _unknown(uses, profile):
            if step.group is None or not (step.group in groups and _is_of(name, step.group)):
                yield from _explained(name, meant, (*step.at, *at), profile, spans=step.group is None)


def _fitted(procedure: Procedure) -> frozenset[str]:
    """What a procedure fits for the time being and may leave: no element of the profile, and no bridge."""
    steps = (step.action for step in procedure.steps)
    return frozenset(action.name for action in steps if isinstance(action, FitTemporary) and action.joins is None)


def _all_known(uses: Iterable[Use], profile: Profile) -> bool:
    """Whether nothing is wrong: the fast way past nearly every step of a manual."""
    known, pins = profile.known, profile.pins
    for names, meant, _ in uses:
        if meant == "contact":
            for contact in names:
                if contact.pin not in pins.get(contact.connector, ()):  # type: ignore[union-attr]
                    return False
        elif not known[meant].issuperset(names):
            return False
    return True


def _unknown(uses: Iterable[Use], profile: Profile) -> Iterator[tuple[str | Contact, str, Path]]:
    """The names that deserve a second look, one by one, each with its path."""
    for use in uses:
        if not _all_known((use,), profile):
            names: tuple[str | Contact, ...] = use[0]
            _, meant, at = use
            for index, name in enumerate(names):
                if meant == "contact" or name not in profile.known[meant]:
                    yield name, meant, at if len(names) == 1 else (*at, index)


def _unknown_places(steps: Iterable[Step], profile: Profile) -> dict[str, Path]:
    """The places of groups that the profile does not have, with their paths in `for_each`.

    A step keeps the path of the line that was written, which is the same at every place; how often the
    first step of the group has come tells which place it is.
    """
    found: dict[str, Path] = {}
    count: dict[Path, int] = {}
    for step in steps:
        if step.group is None or step.at[-1] != 0:
            continue
        outer = step.at[:-2]
        index = count.get(outer, 0)
        count[outer] = index + 1
        if step.group not in profile.known["place of a group"]:
            found.setdefault(step.group, (*outer, "for_each", index))
    return found


def _is_of(name: str | Contact, place: str) -> bool:
    """Whether a name was made from the place of its group."""
    if isinstance(name, Contact):
        return name.connector == place
    return name == place or name.startswith((place + "/", place + " "))


def _explained(
    name: str | Contact, meant: str, at: Path, profile: Profile, spans: bool = True
) -> Iterator[tuple[str, Fault]]:
    """What is wrong with a name, and the rule that says so; nothing where it may be right after all."""
    if isinstance(name, Contact):
        yield from _about_contact(name, at, profile, spans)
        return
    takes = MEANT[meant]
    if takes.contacts and name == "nothing":
        yield "name-not-in-profile", _nothing_and_more(at)
        return
    found = profile.find(name)
    if takes.contacts and found is None:
        contact = read_contact(name)
        if contact is not None:
            yield from _about_contact(contact, at, profile, spans)
            return
    if takes.words and found is None and not _is_a_name(name, meant, profile):
        return
    if found is not None:
        yield rule_of(meant), _other_kind(found, meant, at, profile)
    elif not profile.hides_names:
        yield rule_of(meant), _missing(name, meant, at, profile)


def _is_a_name(text: str, meant: str, profile: Profile) -> bool:
    """Whether a text that may be words is meant as a name of the profile, or as several."""
    alike = profile.alike(text, MEANT[meant].kinds)
    return alike is not None or bool(_IDENTIFIER.fullmatch(text) or in_brackets(text, profile.known[meant]))


def _about_contact(contact: Contact, at: Path, profile: Profile, spans: bool) -> Iterator[tuple[str, Fault]]:
    """What is wrong with a contact: its connector, or else its pin."""
    if profile.has(contact):
        return
    name = contact.connector
    connector = profile.vehicle.connectors.get(name)
    if connector is None:
        span = (0, len(name)) if spans else None
        for rule, fault in _explained(name, "connector", at, profile):
            yield rule, Fault(at, fault.message, fault.because, fault.help, fault.see, span=span)
    elif not profile.hides_names and contact.pin is not None:
        start = len(name) + 1
        meant = nearest(contact.pin, connector.pins)
        pins = [f"`{pin}`" for pin in connector.pins]
        help_ = f"did you mean `{name}/{meant}`?" if meant else f"its pins are: {', '.join(pins[:24])}"
        yield (
            "pin-not-in-connector",
            Fault(
                at,
                f"the connector `{name}` has no pin `{contact.pin}`",
                help=help_,
                see=(Spot(profile.vehicle.file, (*connector.at, "pins"), f"the pins of `{name}`", key=True),),
                span=(start, start + len(contact.pin)) if spans and "rows" not in at else None,
            ),
        )


def _nothing_and_more(at: Path) -> Fault:
    return Fault(
        at,
        "`nothing` stands among names",
        "it says that a step touches no part of the vehicle, and the names beside it say that it does",
        "write `on: nothing`, or take `nothing` out of the list",
    )


def _other_kind(found: Found, meant: str, at: Path, profile: Profile) -> Fault:
    key = next((part for part in reversed(at) if isinstance(part, str)), "")
    kinds = MEANT[meant].kinds
    if found.id == MODE_OFF and found.kind in kinds:
        return Fault(
            at,
            f"`{MODE_OFF}` is not opened or closed by hand",
            "every vehicle has it; it is open while the vehicle is off or asleep",
            "write `set: {mode: off}`, or `set:` with another mode to close it",
        )
    help_ = _WAYS.get(found.kind) if key in _ACTION_KEYS else None
    see: tuple[Spot, ...] = ()
    if found.at is not None:
        see = (Spot(profile.vehicle.file, found.at, f"{with_article(found.kind)} of this name", key=True),)
    return Fault(
        at,
        f"`{found.id}` is {with_article(found.kind)}, but {with_article(in_words(kinds))} is meant here",
        help=help_ or _help(found.id, meant, profile),
        see=see,
        key=_is_key(at),
    )


def _missing(name: str, meant: str, at: Path, profile: Profile) -> Fault:
    kinds = MEANT[meant].kinds
    what = "name" if len(kinds) > 3 else in_words(kinds)
    return Fault(at, f"the vehicle profile has no {what} `{name}`", help=_help(name, meant, profile), key=_is_key(at))


def _is_key(at: Path) -> bool:
    """Whether the name is the key of a map, as circuits are in `expects` and `leaves`."""
    return len(at) > 1 and at[-2] in ("expects", "leaves")


def _help(name: str, meant: str, profile: Profile) -> str:
    """What was probably meant, or what there is, or where it should have been added."""
    kinds = MEANT[meant].kinds
    several = in_brackets(name, profile.known[meant])
    if several is not None:
        return several
    alike = profile.alike(name, kinds)
    if alike is not None:
        return f"write `{alike}`: names are told apart by capital and small letters"
    for kind in (*kinds, *(kind for kind in SECTION_OF if kind not in kinds)):
        close = nearest(name, profile.elements[kind], None if kind in kinds else _OF_ANOTHER_KIND)
        if close is not None and close != name:
            return f"did you mean the {kind} `{close}`?"
    words = "; words that are no name have a space in them" if MEANT[meant].words else ""
    there = [f"`{other}`" for kind in kinds for other in profile.elements[kind]]
    if 0 < len(there) <= _LISTED:
        plural = SECTION_OF[kinds[0]].replace("_", " ") if len(kinds) == 1 else "names"
        return f"the {plural} of the vehicle are: {', '.join(there)}{words}"
    section = f"`{SECTION_OF[kinds[0]]}`" if len(kinds) == 1 else "its section"
    return f"add it under {section} in `{profile.vehicle.file}`{words}"
