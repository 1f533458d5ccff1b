"""`python -m bayleaf` is the command `bayleaf`."""

from .commands import main

main()
