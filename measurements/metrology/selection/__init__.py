"""Choosing from what there is: push rods, shims, oil pressure settings, how much to file off, whether a spring still pushes."""
