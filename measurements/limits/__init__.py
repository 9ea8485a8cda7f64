"""Limit tables and their revisions."""
