"""A file names a variant that the vehicle profile does not have.

## Why it matters

A step that is only for a misspelt variant is shown to nobody; a procedure that applies to one is never
found.

## Fails

```yaml fails procedure
applies:
  variants: longer  # <- the vehicle profile has no variant `longer`
```

## Passes

```yaml passes procedure
steps:
  - do: Look behind the second seat row.
    on: nothing
    only_for: long
  - do: Look at the vehicle.
    on: nothing
```

## Source

The format of the files, version 1: every name is looked up, written just so, in the vehicle profile.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_procedure = check_record = checks("variant-not-in-profile")
