"""A limit is not written as one.

## Why it matters

A limit says on which side of a value a reading is good. `12 V` alone does not, `about 12 V` does not say how far
off is too far, and `>11.5 V` looks like something else on paper. One way of writing serves everybody.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 12 V # <- `12 V` does not say on which side of it a reading is good
    source: workshop practice
```

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: ">= 11.5 V" # <- `>= 11.5 V` is not written as a limit
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

A decision of this format; JCGM 106:2012, 3.3 (tolerance limits).
"""

KIND = "form"
SEVERITY = "error"
