"""A key or a dash has nothing behind it.

## Why it matters

An empty value can mean "none", "not yet known" or "forgotten". Nobody who works by the manual can tell which.

## Fails

```yaml fails procedure
steps:
  - do: Switch the headlamps on.
    on: nothing
    expect: # <- `expect` has no value
```

```yaml fails procedure
symptoms:
  - # <- item 1 of `symptoms` has no value
  - The heater stays cold.
```

## Passes

```yaml passes procedure
steps:
  - do: Switch the headlamps on.
    on: nothing
symptoms:
  - The heater stays cold.
```

## Source

YAML 1.2.2, 7.2 (empty nodes); that a value must stand there is a decision of this format.
"""

KIND = "form"
SEVERITY = "error"
