"""The run on the stand."""
