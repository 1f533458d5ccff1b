"""A procedure stands under a system that the vehicle profile does not have.

## Why it matters

Readers look for a procedure under its system. Under a misspelt one nobody finds it.

## Fails

```yaml fails procedure
system: heatin  # <- the vehicle profile has no system `heatin`
```

## Passes

```yaml passes procedure
system: heating
```

## Source

The format of the files, version 1: every name is looked up, written just so, in the vehicle profile.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_procedure = checks("system-not-in-profile")
