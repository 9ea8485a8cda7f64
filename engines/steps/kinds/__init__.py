"""One file for each kind."""
