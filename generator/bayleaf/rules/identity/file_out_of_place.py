"""A file lies where none is looked for.

## Why it matters

The kind of a file is told by its place. One that lies elsewhere is not read, and nobody would notice that
a procedure is missing.

## Fails

Shown file by file in the tests: `procedures/job.yml`, `procedures/test-van/old/job.yml`.

## Passes

Shown file by file in the tests: `procedures/test-van/job.yml`, `procedures/workshop.yml`,
`records/2026-0001.yml`.

## Source

The format of the files, version 1. Found while the files are looked for.
"""

KIND = "form"
SEVERITY = "error"
