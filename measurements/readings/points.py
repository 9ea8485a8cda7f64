def points_of(row):
    return [(p, d) for p in (row.planes or [""]) for d in (row.directions or [""])]
