"""What was read, and whether it is good. Knows no engine."""
