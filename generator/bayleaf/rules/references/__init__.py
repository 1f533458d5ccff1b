"""Names: whatever a file names must exist, and be of the kind that is meant there.

`_uses` lists the names that a file uses, `_names` looks them up in the vehicle profile and words what is
wrong. The rules about one kind of name hold little more than their page.
"""
