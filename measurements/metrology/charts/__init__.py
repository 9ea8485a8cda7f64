"""Control charts and capability: whether a process runs as it did, and whether that is good enough."""
