"""A contact names a pin that the connector does not have.

## Why it matters

A reading at the wrong pin is worse than none: it may lie within the limits of another signal. The profile
says which pins there are and what each carries.

## Fails

```yaml fails procedure
steps:
  - do: Look at the contact.
    on: X210/2  # <- the connector `X210` has no pin `2`
```

```yaml fails vehicle
cables:
  ground-strap:
    name: Ground strap
    circuit: supply-12
    between: [X210/7, chassis]  # <- the connector `X210` has no pin `7`
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the contacts.
    on: [X210/1, X210/3 device]
```

## Source

The format of the files, version 1: every name is looked up, written just so, in the vehicle profile.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_procedure = check_vehicle = checks("pin-not-in-connector")
