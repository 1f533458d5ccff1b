"""A step names a cable that the vehicle profile does not have.

## Why it matters

A clamp round the wrong cable reads the wrong current. The profile says which circuit a cable carries, and
thereby what the reader is close to.

## Fails

```yaml fails procedure
steps:
  - measure: Current in the ground strap
    quantity: current
    around: ground-strop  # <- the vehicle profile has no cable `ground-strop`
```

## Passes

```yaml passes procedure
steps:
  - measure: Current in the ground strap
    quantity: current
    around: ground-strap
```

## Source

The format of the files, version 1: every name is looked up, written just so, in the vehicle profile.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_procedure = checks("cable-not-in-profile")
