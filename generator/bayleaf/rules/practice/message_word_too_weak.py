"""A safety message speaks of worse than its signal word.

## Why it matters

Readers learn to skip what is headed "notice": nobody is hurt by it. An electric shock under that word is not
read.

## Fails

```yaml fails procedure
steps:
  - do: Look at the socket of the service plug.
    on: nothing
    notice:
      hazard: High voltage in the socket
      consequence: An electric shock can kill. # <- a `notice` is for damage to things only, but this speaks of `kill`
      avoid: Keep the cap on the socket.
```

```yaml fails procedure
steps:
  - do: Look at the socket of the service plug.
    on: nothing
    caution:
      hazard: High voltage in the socket
      consequence: A shock can kill. # <- a `caution` is for minor or moderate injury, but this speaks of `kill`
      avoid: Keep the cap on the socket.
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the socket of the service plug.
    on: nothing
    warning:
      hazard: High voltage in the socket
      consequence: An electric shock can kill.
      avoid: Keep the cap on the socket.
```

## Source

ANSI Z535.6 and ISO 3864-2, definitions of the signal words: danger and warning for death or serious injury,
caution for minor or moderate injury, notice for what is not related to injury. Word lists: ours.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._signal_words import grave_word, injury_word, messages

KIND = "practice"
SEVERITY = "warning"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Notices that speak of injury, and cautions that speak of death or serious injury."""
    for message, at in messages(procedure):
        if message.word == "notice":
            found, meant, right = injury_word(message.consequence), "damage to things only", "caution"
        elif message.word == "caution":
            found, meant, right = grave_word(message.consequence), "minor or moderate injury", "warning"
        else:
            continue
        if found is not None:
            if grave_word(message.consequence):
                right = "warning"
            yield Fault(
                at,
                f"a `{message.word}` is for {meant}, but this speaks of `{found[0]}`",
                "ANSI Z535.6: the signal word is that of the worst that can happen",
                f"write `{right}:` instead of `{message.word}:`, or say what can really happen",
                span=found.span(),
            )
