"""A file as it is written by custom: the order of its keys, its indents, its quotes and the spelling of its values.

`keys` knows the order, `inline` changes what stands on a line, `blocks` moves whole lines, `tidy` joins them and holds
what came out against what went in. Lines are moved and signs replaced; nothing is written anew from the data, so
a remark or a sign that no module knows of stays what it was.
"""
