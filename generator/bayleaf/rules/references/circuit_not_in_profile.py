"""A file names a circuit that the vehicle profile does not have.

## Why it matters

What is live, how long to wait and where to prove it dead are facts of a circuit. With a name that nobody
has described, none of them is known, and the reader cannot look it up either.

## Fails

```yaml fails procedure
steps:
  - wait: 5 min
    for: tracton  # <- the vehicle profile has no circuit `tracton`
```

```yaml fails vehicle
cables:
  ground-strap: {name: Ground strap, circuit: X210}  # <- `X210` is a connector, but a circuit is meant here
```

## Passes

```yaml passes procedure
steps:
  - wait: 5 min
    for: traction
  - wait: 10 min
    for: the sealant to set
```

## Source

The format of the files, version 1: every name is looked up, written just so, in the vehicle profile. In
`for:` a text with a space in it is a reason in words.
"""

from ._names import checks

KIND = "form"
SEVERITY = "error"

check_procedure = check_vehicle = checks("circuit-not-in-profile")
