"""There is no space after a colon.

## Why it matters

Only a colon with a space behind it divides a key from its value; without it the whole line is one text.

## Fails

```yaml fails procedure
steps:
  - do: Look at the display.
    on:nothing # <- `on:nothing` has no space after the colon
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the display.
    on: nothing
```

## Source

YAML 1.2.2, 7.3.3 (plain style) and 8.2.2 (block mappings).
"""

KIND = "form"
SEVERITY = "error"
