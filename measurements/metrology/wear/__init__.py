"""Wear from visit to visit: how fast, how far until the next overhaul, and what that advises beside a verdict."""
