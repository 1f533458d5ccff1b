"""Drawings: one module a drawing. Each lays out first, which can be tested, and writes SVG from that layout."""
