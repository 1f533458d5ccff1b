"""Protection, instruments and people: what can be judged at a step without following the paths that lead to it."""
