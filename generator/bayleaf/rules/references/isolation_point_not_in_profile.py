"""A file names an isolation point that the vehicle profile does not have.

## Why it matters

An isolation point is where energy is taken off: what it leaves live, what must come first and how it is
secured stand in the profile. A point that is not there takes nothing off, whatever the step says.

## Fails

```yaml fails procedure
steps:
  - disconnect: charge-led  # <- the vehicle profile has no isolation point `charge-led`
```

```yaml fails procedure
steps:
  - disconnect: mode-off  # <- `mode-off` is not opened or closed by hand
```

## Passes

```yaml passes vehicle
fasteners:
  plug-bracket: {point: service-plug, size: M6, torque: 6 N·m}
```

## Source

The format of the files, version 1. `mode-off` is the isolation point that every vehicle has; it is opened
and closed by `set`.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_procedure = check_vehicle = checks("isolation-point-not-in-profile")
