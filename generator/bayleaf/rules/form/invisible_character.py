"""The file holds a character that cannot be seen.

## Why it matters

Two names that look alike would be two names, and nobody could see why. Such characters come along when text
is copied from a page, a chat or a PDF.

## Fails

```yaml fails procedure
steps:
  - do: Feel whether the heater is warm.
    on: cabin-\u200bheater # <- a zero width space (U+200B) stands here and cannot be seen
```

## Passes

```yaml passes procedure
steps:
  - do: Feel whether the heater is warm.
    on: cabin-heater
```

## Source

Unicode Character Database, general categories Cc and Cf; YAML 1.2.2, 5.1 (character set).
"""

KIND = "form"
SEVERITY = "error"
