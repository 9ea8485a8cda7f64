"""Files kept by their hash; papers rendered by a worker and sealed. The kinds come from the rooms above."""
