"""A safety message has a signal word for injury, but speaks of damage only.

## Why it matters

Who finds "danger" above a scratched panel three times does not read the fourth.

## Fails

```yaml fails procedure
steps:
  - do: Look at the seal.
    on: nothing
    danger:
      hazard: Grease on the seal
      consequence: The seal is damaged. # <- a `danger` is for injury, but this speaks of damage only: `damaged`
      avoid: Use clean gloves.
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the seal.
    on: nothing
    notice:
      hazard: Grease on the seal
      consequence: The seal is damaged and leaks.
      avoid: Use clean gloves.
```

## Source

ANSI Z535.6 and ISO 3864-2, definitions of the signal words. Word lists: ours.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._signal_words import messages, only_damage_word

KIND = "practice"
SEVERITY = "warning"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Dangers and warnings whose consequence speaks of damage, and of no injury."""
    for message, at in messages(procedure):
        found = only_damage_word(message.consequence) if message.word in ("danger", "warning") else None
        if found is not None:
            yield Fault(
                at,
                f"a `{message.word}` is for injury, but this speaks of damage only: `{found[0]}`",
                "ANSI Z535.6: a message that is not related to injury is a notice",
                f"write `notice:` instead of `{message.word}:`, or say what happens to people",
                span=found.span(),
            )
