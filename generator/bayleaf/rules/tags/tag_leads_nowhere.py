"""A tag in a free page names something that does not exist.

## Why it matters

Who reads how a system works goes on from there to its procedures, its plugs and its drawings. Where a name was changed
and the page was not, the way ends.

## Fails

```markdown fails page
Begin with [[procedure: test-van/isolat]].  <!-- <- there is no procedure `test-van/isolat` -->
```

```markdown fails page
The heater hangs on [[connector: test-van X70]].  <!-- <- the vehicle `test-van` has no connector `X70` -->
```

```markdown fails page
[[energy: test-vann]]  <!-- <- there is no vehicle `test-vann` -->
```

## Passes

```markdown passes page
Begin with [[procedure: test-van/isolate]]; the heater hangs on [[connector: test-van X7]].
```

## Source

The format of free pages: every name in a tag is looked up, written just so. A step is named by its id or its number.
"""

from collections.abc import Callable, Iterator

from ...loading.shape_words import nearest
from ...model.free_page import ELEMENTS, FreePage
from ..case import Case, names_of
from ..fault import Fault
from ..references._procedures import is_reported_elsewhere, words_of_missing
from ..rule import all_rules, rule_named
from ._words import readable_tags

KIND = "form"
SEVERITY = "error"

#: What is said and what is to be written; None where the name leads somewhere; empty where that cannot be told.
_Told = tuple[str, str] | None
_CANNOT_TELL = "", ""


def check_page(page: FreePage, case: Case) -> Iterator[Fault]:
    """The first name of each tag that leads nowhere: the names behind it rest on it."""
    for number, tag, form in readable_tags(page):
        first = tag.names[0].text
        for kind, name in zip(form, tag.names, strict=True):
            told = _element(kind, name.text, first, case) if kind in ELEMENTS else _FIND[kind](name.text, first, case)
            if told is not None:
                message, help_ = told
                if message:
                    yield Fault(("tags", number), message, help=help_, span=(name.start, name.end))
                break


def _vehicle(name: str, first: str, case: Case) -> _Told:
    if name in case.vehicles:
        return None
    if "vehicle.yml" in case.outlook.entries(f"procedures/{name}"):
        return _CANNOT_TELL  # its profile is there, and cannot be read
    meant = nearest(name, case.vehicles)
    known = ", ".join(f"`{one}`" for one in case.vehicles)
    return (
        f"there is no vehicle `{name}`",
        f"did you mean `{meant}`?" if meant else f"the vehicles are: {known or 'none'}",
    )


def _procedure(name: str, first: str, case: Case) -> _Told:
    if name in case.facts:
        return None
    return _CANNOT_TELL if is_reported_elsewhere(name, case) else words_of_missing(name, None, case)


def _step(name: str, first: str, case: Case) -> _Told:
    facts = case.facts[first]
    if name in facts.step_ids or name in facts.step_numbers:
        return None
    if not facts.readable:
        return _CANNOT_TELL
    meant = nearest(name, facts.step_ids)
    help_ = f"did you mean `{meant}`?" if meant else "write the id or the number that the page shows at the step"
    return f"the procedure `{first}` has no step `{name}`", help_


def _code(name: str, first: str, case: Case) -> _Told:
    known = {code for facts in case.facts.values() for code in facts.trouble_codes}
    known |= {code.code for vehicle in case.vehicles.values() for code in vehicle.codes.values()}
    if name in known:
        return None
    meant = nearest(name, sorted(known))
    help_ = (
        f"did you mean `{meant}`?" if meant else "write it under `codes` of a profile or `trouble_codes` of a procedure"
    )
    return f"no profile and no procedure names the trouble code `{name}`", help_


def _rule(name: str, first: str, case: Case) -> _Told:
    if rule_named(name) is not None:
        return None
    meant = nearest(name, (rule.name for rule in all_rules()))
    return f"there is no rule `{name}`", f"did you mean `{meant}`?" if meant else "copy the name that a report shows"


def _element(kind: str, name: str, vehicle: str, case: Case) -> _Told:
    names = names_of(case.vehicles[vehicle])
    found = names.get(name.casefold())
    if found is not None and found.id == name and found.kind == kind:
        return None
    message = f"the vehicle `{vehicle}` has no {kind} `{name}`"
    if found is not None and found.kind == kind:
        return message, f"write `{found.id}`: names are told apart by capital and small letters"
    if found is not None:
        return message, f"there `{found.id}` is the name of a {found.kind}"
    meant = nearest(name, (one.id for one in names.values() if one.kind == kind))
    return (
        message,
        f"did you mean `{meant}`?" if meant else f"add it to `procedures/{vehicle}/vehicle.yml`, or name another",
    )


_FIND: dict[str, Callable[[str, str, Case], _Told]] = {
    "vehicle": _vehicle,
    "procedure": _procedure,
    "step": _step,
    "trouble code": _code,
    "rule": _rule,
}
