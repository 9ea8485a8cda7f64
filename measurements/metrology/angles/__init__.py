"""Angles round a circle and round a cycle: openings, the piston's place, top centre, timing, and the order of firing."""
