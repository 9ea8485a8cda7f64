"""Engine models, part numbers, positions, routes, directives, permitted pairings."""
