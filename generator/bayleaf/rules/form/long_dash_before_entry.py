"""An entry of a list begins with a long dash.

## Why it matters

Word processors and telephones make a long dash of the hyphen that begins a line. It looks like the dash of a list and
is none, so the entry would be read as part of something else.

## Fails

```yaml fails procedure
steps:
  - do: Park the vehicle
    on: nothing
  – do: Switch it off # <- the entry `do: Switch it off` begins with the long dash `–`
    on: nothing
```

## Passes

```yaml passes procedure
steps:
  - do: Park the vehicle – on level ground
    on: nothing
  - do: Switch it off
    on: nothing
```

## Source

YAML 1.2.2, 8.2.1 (block sequences).
"""

KIND = "form"
SEVERITY = "error"
