"""Work for a worker: a row with a lease and an attempt, and a sweep that loses nothing."""
