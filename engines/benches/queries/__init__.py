"""What the board and the first pages show, gathered for many engines at once: a constant number of queries."""
