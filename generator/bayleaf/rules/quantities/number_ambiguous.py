"""A number can be read in two ways.

## Why it matters

With three digits behind it, a comma or a point divides thousands for one reader and decimals for the other:
`1,000 V` is a thousand volts or one. So it is refused, and both ways of writing it are shown. What a meter with three decimals
shows, `5.012 V`, is written as `5012 mV`, or with a nought behind it. On the page of a job it is typed as it is shown: there the
instrument of the step says that it has three decimals.

## Fails

```yaml fails procedure
steps:
  - read: Insulation resistance of the traction system
    quantity: insulation resistance
    limits: at least 1,000 kΩ # <- `1,000` can be read in two ways
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - read: Insulation resistance of the traction system
    quantity: insulation resistance
    limits: at least 1000 kΩ
    source: workshop practice
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: at least 11,5 V
    source: workshop practice
```

## Source

NIST SP 811, 10.5.2 and 10.5.3 (decimal marker, groups of digits; clauses from memory).
"""

KIND = "form"
SEVERITY = "error"
