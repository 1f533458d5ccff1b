"""Good practice of the trade. These warnings can be waived, with a reason that every report prints."""
