"""What makes work safe: the states of the circuits on every path, and the protection that a step asks for."""
