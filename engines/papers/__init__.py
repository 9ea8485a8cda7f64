"""Traveler, build record, trace report and tags as papers."""
