"""Pages: the first page of each person, the board, an engine, an area, an operation, a discrepancy."""
