"""Readings and their verdicts.

For now: the judged sheet. A limit table and a file of readings come in together, are judged by `measurements.judge`
exactly as on the command line, and all three files are kept by their SHA-256. Nothing of a sheet ever changes; what a
page or a paper shows is read back from the kept files, whose hashes are checked each time.
"""
