"""The values that everything above stands on: frozen, hashable, without YAML and without formatting.

Every element carries `at`, the path to it in its file; the place is looked up only for a finding.
Whatever a file leaves out, or says in a way that cannot be read, is `None` or empty here: the fault
has been reported by then, and `broken` marks the element so that no rule judges it a second time.
"""
