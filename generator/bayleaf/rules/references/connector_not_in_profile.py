"""A file names a connector that the vehicle profile does not have.

## Why it matters

The probe goes where the page says. The place, the pins and the circuit of a connector stand in the
profile; a connector that is not there sends the reader looking, or to the wrong plug.

## Fails

```yaml fails procedure
steps:
  - do: Look at the contact.
    on: X120/1  # <- the vehicle profile has no connector `X120`
```

```yaml fails vehicle
fasteners:
  inverter-terminals: {terminal: [X1/1, x1/2], size: M6, torque: 6 N·m}  # <- the vehicle profile has no connector `x1`
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the contact.
    on: X210/1
```

## Source

The format of the files, version 1: every name is looked up, written just so, in the vehicle profile.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_procedure = check_vehicle = checks("connector-not-in-profile")
