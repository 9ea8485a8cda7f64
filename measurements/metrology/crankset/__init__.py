"""A crank set and its cylinders: weights and balance, displacement and compression ratio, differential compression."""
