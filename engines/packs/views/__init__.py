"""Pages of engine data."""
