"""Rules about job records: what was read, done and decided, held against the procedure it was worked by."""
