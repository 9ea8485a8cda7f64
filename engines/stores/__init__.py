"""Receiving parts, issuing them, reserving them to a visit."""
