"""Rows that the calculations are held to: one module a family, named like the module of the calculation."""
