"""Gauge studies: repeatability and reproducibility, bias, linearity, and whether several gauges agree."""
