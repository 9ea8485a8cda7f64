"""A reading tied to visit, item and position; fits on the engine; discrepancies."""
