"""A step names a fastener that the vehicle profile does not have.

## Why it matters

The tightening torque stands in the profile, once. A fastener that is not there is tightened by feel.

## Fails

```yaml fails procedure
steps:
  - tighten: heater-braket  # <- the vehicle profile has no fastener `heater-braket`
```

## Passes

```yaml passes procedure
steps:
  - loosen: heater-bracket
  - tighten: heater-bracket
  - tighten: the two clips of the coolant hose
    torque: 3 N·m
    source: workshop practice
```

## Source

The format of the files, version 1. With `torque` beside it, `tighten` describes a fastener in words; in
`loosen` a text with a space in it does.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_procedure = checks("fastener-not-in-profile")
