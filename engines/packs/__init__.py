"""Engine data packs: load, check, approve."""
