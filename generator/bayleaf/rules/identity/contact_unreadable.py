"""A point of measurement is no contact.

## Why it matters

A probe touches one pin, on one side of a connector. "At X7" leaves open which of its pins, and one of
them may carry the full voltage of the battery.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210, X210/1]  # <- `X210` is no contact
    using: multimeter
```

## Passes

```yaml passes procedure
steps:
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
```

## Source

The format of the files, version 1: `X210/3` is the pin of the mated connector, `X210/3 device` and
`X210/3 cable` its sides, `X210 device` all pins of one side, `chassis` the chassis. Found while the file
is read.
"""

KIND = "form"
SEVERITY = "error"
