"""A stay in the shop: receiving, areas and their stages, benches."""
