"""The first page of each person and the board: who is where, held up by what."""
