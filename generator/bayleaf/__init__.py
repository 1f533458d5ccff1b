"""Bayleaf: service procedures for electrified vehicles, checked and rendered.

The layers, from the ground up, each importing only what stands before it:
diagnostics, quantities, model, calculations, loading, records, graph, safety,
rules, manual, pages, site, mkdocs_shell, commands.
"""

__version__ = "0.1.0"
