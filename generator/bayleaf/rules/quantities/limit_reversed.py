"""A limit runs from high to low.

## Why it matters

No reading lies between 14.8 V and 11.5 V in this order. The two were changed over, or one of them is wrong.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 14.8 V to 11.5 V # <- `14.8 V to 11.5 V` runs from high to low
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 11.5 V to 14.8 V
    source: workshop practice
```

## Source

A decision of this format.
"""

KIND = "form"
SEVERITY = "error"
