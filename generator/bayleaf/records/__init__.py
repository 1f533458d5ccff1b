"""Job records: followed through their procedure, and every reading judged anew. Pure functions of what was read."""
