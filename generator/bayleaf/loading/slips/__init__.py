"""Slips of the pen in a YAML file: one module finds each family of them and mends the text to read on.

- before reading: `unseen` (characters that cannot be seen), `undecided` (two versions of the same lines)
- where reading stopped: `unreadable`, with `tabs`, `colons` and `enclosed` (brackets, quotes)
- after reading: `marks` (signs of YAML's own), `misread`, `braces`, `entries` and `dashes` (of lists)

`draft` is the text between author and reader, `slip` the one value they all return;
`where` tells lines apart.
"""
