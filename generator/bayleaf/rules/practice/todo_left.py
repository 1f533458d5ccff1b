"""A place is marked to be filled in later.

## Why it matters

A draft may stand in a manual while it is being written. Whoever works by it has to know that it is not finished.

## Fails

```yaml fails procedure
steps:
  - do: "TODO: say how the cable is laid." # <- this is still to be filled in (1 of 1 in this file)
    on: nothing
```

## Passes

```yaml passes procedure
steps:
  - do: Lay the cable along the frame.
    on: nothing
```

## Source

A decision of this format. The word TODO in capitals is looked for, in texts and in comments.
"""

KIND = "practice"
SEVERITY = "advice"
