"""A whole site: the folder it is written to, what may stand in it, and the index of its search.

Nothing here knows MkDocs; whoever has pages hands them in.
"""
