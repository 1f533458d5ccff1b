"""A key has a name that the format does not know.

## Why it matters

A key that nobody reads is lost without a sound: a limit under `limit:` instead of `limits:` would never be
compared with a reading. So every key is known, and one that is not is reported, with the key that was
probably meant.

## Fails

```yaml fails procedure
steps:
  - do: Switch the headlamps on.
    on: nothing
    expct: Both headlamps are lit. # <- `expct` is no key of a step
```

```yaml fails workshop
policy:
  dead_bellow: 5 V # <- `dead_bellow` is no key of `policy`
```

## Passes

```yaml passes procedure
steps:
  - do: Switch the headlamps on.
    on: nothing
    expect: Both headlamps are lit.
```

## Source

The schema of each kind of file, in the folder `schema`; the page of the format lists its keys.
"""

KIND = "form"
SEVERITY = "error"
