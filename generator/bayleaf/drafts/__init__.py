"""Drafts: procedures and profiles written for an author to go on with. Pure functions from a model and answers to text.

What nobody has said yet is marked `TODO`; a draft never makes a fact up.
"""
