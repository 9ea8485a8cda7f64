"""ISO 286-1 and -2: tolerance grades, fundamental deviations and fits up to 500 mm, as a cross-check of a table."""
