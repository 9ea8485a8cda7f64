"""Readings and their verdicts; sheets of readings judged against a limit table."""
