"""Persons, customers, roles and who may do what."""
