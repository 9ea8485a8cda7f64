"""One file for each chapter of the story."""
