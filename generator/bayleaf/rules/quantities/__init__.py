"""Numbers, units and limits. Most of these faults are found while a value is read."""
