"""Lets the tests of the site find the made-up manual beside them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))  # this folder cannot be a package: `site` is Python's own
