"""A file ends in `.yaml` or in capitals.

## Why it matters

With two endings allowed, two files could be one procedure, and a reference would lead to either.

## Fails

Shown file by file in the tests: `procedures/test-van/job.yaml`, `procedures/test-van/job.YML`.

## Passes

Shown file by file in the tests: `procedures/test-van/job.yml`.

## Source

The format of the files, version 1: the names of files end in `.yml`. Found while the files are looked
for.
"""

KIND = "form"
SEVERITY = "error"
