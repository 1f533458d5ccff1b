"""From files to values: text with places, then shape, then model."""
