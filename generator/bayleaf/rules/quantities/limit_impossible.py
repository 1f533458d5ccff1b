"""A limit reaches values that cannot be.

## Why it matters

There is no resistance below nothing and nothing colder than absolute zero. A limit that allows such a value
came from a slip: a sign, a decimal, or a tolerance larger than its value.

## Fails

```yaml fails procedure
steps:
  - read: Resistance of the signal loop
    quantity: resistance
    limits: 2 Ω ± 3 Ω # <- `2 Ω ± 3 Ω` is impossible: it reaches `-1 Ω`
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - read: Resistance of the signal loop
    quantity: resistance
    limits: 2 Ω ± 0.3 Ω
    source: workshop practice
```

## Source

SI Brochure, 9th edition, 2.3.1 (the kelvin begins at absolute zero; clause from memory).
"""

KIND = "form"
SEVERITY = "error"
