"""Threads, classes, torques and the tools for them."""
