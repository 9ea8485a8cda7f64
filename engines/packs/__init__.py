"""Engine data packs: read from files, held against the pages that they cite by a second person, put into force, compared.

`reading` knows files and plain values only and reports every mistake that it finds. What is kept lies in `engines.catalogue`.
"""
