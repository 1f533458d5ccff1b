"""Formulas, each with its symbols, units, range of validity and source. Pure functions of plain numbers in SI units."""
