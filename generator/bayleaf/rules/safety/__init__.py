"""Rules about what the walk finds: on every path, nobody touches what is live, and nothing is left undone."""
