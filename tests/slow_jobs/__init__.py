"""A paper whose making waits for a sign, so that a test can interrupt the worker in the middle. For tests only."""
