"""Limits: those that a rule computes from the profile, and what an instrument can decide about them.

A rule is one module of `limits/rules/`, found by walking the folder; its docstring is its page in the manual's book.
"""
