"""Readings and their verdicts.

A judged sheet: a limit table and a file of readings come in together, are judged by `measurements.judge` exactly as on the
command line, and all three files are kept by their SHA-256. What a page or a paper shows is read back from the kept files.

A single reading: values at the planes and directions of one row (`points`), what the gauge of the day is worth (`reads`,
`uncertainty`), the verdict (`judging`), what follows from it (`deriving`, `fitting`). `services.drafts` checks and judges
without keeping, so that an act can write several readings and its own record in one transaction; `services.take_reading`
keeps one. Whoever drafts from kept readings loads their row, gauge and calibration with them.

Nothing of a sheet or a reading ever changes: a wrong reading is corrected by another that names it.
"""
