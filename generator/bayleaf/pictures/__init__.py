"""Photos: what is in a file, and what of it is published. The only importer of Pillow.

`kinds` what a file is by its first bytes · `seen` what is known of a picture · `look` finds that out · `published`
sizes and names · `convert` makes the files · `album` the photos of one manual, each looked at and converted once.
"""
