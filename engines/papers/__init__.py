"""The papers of a visit, made by a worker: traveler, build record, parts traceability report, run sheet, logbook sheet.

Each is one file and one template. They read what stands in the rooms below and keep nothing themselves.
"""
