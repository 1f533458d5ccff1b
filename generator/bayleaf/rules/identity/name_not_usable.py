"""A name holds characters that no name can have.

## Why it matters

Names become addresses of pages and are typed on keyboards of all countries. With spaces, umlauts or full
stops in them they could not be told from the words around them.

## Fails

```yaml fails vehicle
cables:
  ground strap: {name: Ground strap, circuit: supply-12}  # <- `ground strap` cannot be a name
```

## Passes

```yaml passes vehicle
cables:
  W1-ground: {name: Ground strap, circuit: supply-12}
```

## Source

The format of the files, version 1: letters, digits and hyphens, in the name of a step, role or instrument
small letters only. Found while the file is read.
"""

KIND = "form"
SEVERITY = "error"
