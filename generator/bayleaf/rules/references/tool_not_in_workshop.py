"""A tool is named as the workshop file names tools, but does not stand there.

## Why it matters

The page shows what a tool is called and where it hangs, and what it is insulated for. Of a misspelt one it can
show nothing, and nobody notices that one is missing before the work has begun.

A tool that the workshop file does not list is written in words, with a space in them or a capital letter.

## Fails

```yaml fails procedure
steps:
  - do: Lock the keys away.
    on: nothing
    tools: lockbox  # <- the workshop has no tool `lockbox`
```

```yaml fails procedure
tools: lock-box, multimeter  # <- `lock-box, multimeter` is several names in one text
```

## Passes

```yaml passes procedure
steps:
  - do: Lock the keys away.
    on: nothing
    tools: [lock-box, Two padlocks]
```

## Source

The format of the files, version 1: `tools` holds names from `tools`, `instruments` and `proving_units` of the
workshop file, or words.
"""

import re
from collections.abc import Iterator

from ...diagnostics.place import Path
from ...loading.shape_words import nearest
from ...model.procedure import Procedure
from ...model.workshop import Workshop
from ..case import Case
from ..fault import Fault
from ..once import once
from ._meant import in_brackets
from ._memo import of_last

KIND = "form"
SEVERITY = "error"

_IDENTIFIER = re.compile(r"[a-z0-9-]+")


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The tools of the procedure and of its steps."""
    return once(_all(procedure, case), procedure.file)


def _all(procedure: Procedure, case: Case) -> Iterator[Fault]:
    if case.workshop is None or case.workshop.broken:
        return
    there = _tools(case.workshop)
    if not there:  # no workshop file yet, or nothing in it: the instruments tell that already
        return
    yield from _check(procedure.tools, ("tools",), there)
    told: set[Path] = set()
    for step in procedure.steps:
        if step.tools and not step.broken and step.at not in told:
            told.add(step.at)
            yield from _check(step.tools, (*step.at, "tools"), there)


@of_last
def _tools(workshop: Workshop) -> frozenset[str]:
    return frozenset((*workshop.tools, *workshop.instruments, *workshop.proving_units))


def _check(names: tuple[str, ...], at: Path, there: frozenset[str]) -> Iterator[Fault]:
    if there.issuperset(names):
        return
    for index, name in enumerate(names):
        path = at if len(names) == 1 else (*at, index)
        several = in_brackets(name, there)
        if several is not None:
            yield Fault(path, f"`{name}` is several names in one text", None, several)
        elif name not in there and _IDENTIFIER.fullmatch(name):
            meant = nearest(name, sorted(there))
            help_ = f"did you mean `{meant}`?"
            if meant is None:
                words = name.replace("-", " ").capitalize()
                help_ = f"add it under `tools` or `instruments` in the workshop file, or write it in words: `{words}`"
            yield Fault(path, f"the workshop has no tool `{name}`", None, help_)
