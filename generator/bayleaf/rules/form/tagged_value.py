"""A word with an exclamation mark says what kind of thing a value is.

## Why it matters

What a value is follows from its key alone. A tag such as `!!float` would make another thing of it, in a way
that cannot be seen on the page.

## Fails

```yaml fails procedure
steps:
  - wait: !!str 5 min # <- `!!str` stands before the value and would change what it is
```

## Passes

```yaml passes procedure
steps:
  - wait: 5 min
  - do: "!! is painted on the cover; leave it closed."
    on: nothing
```

## Source

YAML 1.2.2, 6.9.1 (node tags).
"""

KIND = "form"
SEVERITY = "error"
