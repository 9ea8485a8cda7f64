"""The pages of the stand."""
