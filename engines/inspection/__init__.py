"""Readings tied to an engine: visit, item, position, characteristic; what is required, how it stands, what was decided.

How a requirement stands is computed from the records each time and kept nowhere, so nothing can go stale. Pure rules in
`standing`; the gates in `release` ask them.
"""
