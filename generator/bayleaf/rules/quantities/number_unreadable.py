"""A value does not hold one number.

## Why it matters

A number in words, with a power of ten, or a whole limit where one value belongs, cannot be computed with. What
can be read in one way only is read; everything else is asked for.

## Fails

```yaml fails procedure
steps:
  - wait: five minutes # <- `five minutes` does not begin with a number
```

```yaml fails procedure
steps:
  - wait: 5 min to 10 min # <- `5 min to 10 min` is a limit, but one value is expected
```

## Passes

```yaml passes procedure
steps:
  - wait: 5 min
```

## Source

A decision of this format: numbers are exact, and nothing is guessed.
"""

KIND = "form"
SEVERITY = "error"
