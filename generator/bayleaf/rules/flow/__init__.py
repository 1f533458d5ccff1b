"""What follows what: steps that nothing leads to, exits that are missing, loops without an end."""
