# The two commands that do everything on a fresh machine: `make manual` and `make test`.
# On Windows, without make: `py tools.py manual` and `py tools.py test` do the same (tools.py is what this file calls).

PYTHON ?= python3

.PHONY: manual test bench campaign golden screenshots clean

manual test bench campaign golden screenshots clean:
	$(PYTHON) tools.py $@
