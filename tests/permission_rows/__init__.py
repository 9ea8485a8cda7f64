"""Rows of the permission table, one file for each room that has many."""
