"""Pages of the people room: the way in, the persons, the customers."""
