"""The rules by which limits are computed, one module each."""
