"""A unit is not one that can be written here.

## Why it matters

Every value is computed with and compared, so its unit has to be one of the table. Where several spellings are
usual, all of them are accepted; where one is misspelt, the nearest is named.

## Fails

```yaml fails procedure
steps:
  - wait: 5 minits # <- `minits` is not a unit that can be written here
```

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: at least 11.5 VDC # <- `VDC` is not a unit that can be written here
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - wait: 5 min
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: at least 11.5 V
    source: workshop practice
```

## Source

The table of units on the page of the format; SI Brochure, 9th edition, 2.3 and 4; NIST SP 811, 7.4 (nothing is
added to the symbol of a unit; clause from memory).
"""

KIND = "form"
SEVERITY = "error"
