"""Limit tables with revisions.

A table belongs to an opaque subject and a revision; its rows never change once written. A row is read, derived from what
was read on another row, or a fit between two rows; it may be for one size class of a surface and for a range of serials.
A reading keeps its row for ever.
"""
