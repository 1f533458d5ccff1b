"""A file names something that the vehicle profile does not have.

## Why it matters

What a step touches decides what must be dead before it. A name that the profile does not have touches
nothing that is known, and so asks for nothing.

## Fails

```yaml fails procedure
steps:
  - do: Check the seal.
    on: inverter-cver  # <- the vehicle profile has no name `inverter-cver`
```

```yaml fails procedure
steps:
  - do: Look at the plug.
    on: [nothing, X210]  # <- `nothing` stands among names
```

```yaml fails procedure
steps:
  - for_each: [X210, X211]  # <- the vehicle profile has no name `X211`
    steps:
      - do: Look at the plug.
        on: each
```

## Passes

```yaml passes procedure
steps:
  - do: Check the seal.
    on: [X210, X210/1]
  - do: Write down the odometer.
    on: nothing
```

## Source

The format of the files, version 1. `on` holds names of the profile, contacts, or `nothing` alone. Where
only one kind of name can stand, the rule of that kind reports it.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_procedure = checks("name-not-in-profile")
