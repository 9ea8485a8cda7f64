"""The gauge register, calibrations and studies."""
