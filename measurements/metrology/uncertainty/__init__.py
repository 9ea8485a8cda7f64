"""Uncertainty of a reading, and what may be decided from it."""
