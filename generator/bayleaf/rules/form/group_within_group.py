"""A group of steps for several places stands inside another such group.

## Why it matters

`for_each` says: do these steps at every one of these places. One inside the other, the reader would have to
keep two places in mind at once, and a step would be named after both.

## Fails

```yaml fails procedure
steps:
  - for_each: [X1, X7]
    steps:
      - for_each: [X210] # <- a group of steps stands inside another
        steps:
          - unplug: X210
```

## Passes

```yaml passes procedure
steps:
  - for_each: [X1, X7]
    steps:
      - do: Look at the seal of each/1 device.
        on: each
  - for_each: [X210]
    steps:
      - do: Look at the lock of each/1 device.
        on: each
```

## Source

A decision of this format.
"""

KIND = "form"
SEVERITY = "error"
