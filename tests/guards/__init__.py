"""Readers of the tree's syntax that hold the building together, and tests that prove each of them can fail."""
