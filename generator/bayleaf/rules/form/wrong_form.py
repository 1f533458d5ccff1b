"""A value is not written the way it has to be.

## Why it matters

A date, a count or an identifier is sorted, added and compared. That works only where all are written alike,
and `30.9.2026` or `9/30/26` would mean different days to different readers.

## Fails

```yaml fails procedure
revisions:
  - number: 1
    date: 30.9.2026 # <- `date` cannot be `30.9.2026`
    why: First version
```

```yaml fails procedure
steps:
  - do: Lift the bonnet off.
    on: nothing
    people: two # <- `people` cannot be `two`
```

## Passes

```yaml passes procedure
revisions:
  - number: 1
    date: 2026-09-30
    why: First version
steps:
  - do: Lift the bonnet off.
    on: nothing
    people: 2
```

## Source

ISO 8601-1 for dates; the patterns in the schema of each kind of file, in the folder `schema`.
"""

KIND = "form"
SEVERITY = "error"
