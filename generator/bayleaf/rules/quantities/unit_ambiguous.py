"""A unit can mean two things.

## Why it matters

Whether a letter is a capital decides whether it means a million or a thousandth. `mohm` is written for
milliohms and for megohms; a thousand million lie between them.

## Fails

```yaml fails procedure
steps:
  - read: Resistance of the signal loop
    quantity: resistance
    limits: at most 50 mohm # <- `50 mohm` can mean milliohm or megohm
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - read: Resistance of the signal loop
    quantity: resistance
    limits: at most 50 mOhm
    source: workshop practice
```

## Source

SI Brochure, 9th edition, 3 (prefixes; capital and small letters differ).
"""

KIND = "form"
SEVERITY = "error"
