"""A key is missing, or is no text.

## Why it matters

Every value has a key that says what it is. A colon with nothing before it, or a list as a key, says nothing.

## Fails

```yaml fails procedure
steps:
  - do: Look at the display.
    on: nothing
    : The display is dark. # <- the key before this colon is missing
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the display.
    on: nothing
    expect: The display is dark.
```

## Source

A decision of this format; YAML 1.2.2, 8.2.2 (block mappings) would allow it.
"""

KIND = "form"
SEVERITY = "error"
