"""A text begins with a curly quote.

## Why it matters

Only the straight quotes " and ' enclose a text. Curly ones, which word processors put in by themselves,
become part of the text, and what they should have protected is read as something else.

## Fails

```yaml fails procedure
title: “Test job” # <- the text begins with the curly quote “
```

## Passes

```yaml passes procedure
title: "Test job"
about: The display shows “ready” while the vehicle charges.
```

## Source

YAML 1.2.2, 7.3.1 and 7.3.2 (double-quoted and single-quoted style).
"""

KIND = "form"
SEVERITY = "error"
