"""Errands in a real browser on the running product: what a person sees and presses."""
