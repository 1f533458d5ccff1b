"""A comma inside braces tears a text apart.

## Why it matters

Inside braces a comma begins the next key. In `{do: Park, select P}` the text ends at "Park", and "select P"
is taken for a key without a value: half of the instruction is lost.

## Fails

```yaml fails procedure
steps:
  - {do: Park, on: nothing, expect: The lever is in P, the brake is on} # <- `the brake is on` stands in braces without a value
```

## Passes

```yaml passes procedure
steps:
  - {do: Park, on: nothing, expect: "The lever is in P, the brake is on"}
```

## Source

YAML 1.2.2, 7.4.2 (flow mappings), 7.3.3 (plain style).
"""

KIND = "form"
SEVERITY = "error"
