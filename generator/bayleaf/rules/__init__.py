"""The rules. One rule is one module in a folder of its family; nothing lists them, the folders are walked.

The name of a rule is the name of its module with hyphens, and states the fault. The docstring of the module
is the page of the rule, and its examples are the rule's first tests. See `rules.rule` for what a module holds.
"""
