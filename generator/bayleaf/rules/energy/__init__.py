"""What a vehicle profile and a workshop must say so that anything can be proved of a circuit."""
