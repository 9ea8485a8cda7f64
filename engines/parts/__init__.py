"""Items, fitments, certificates, tracing; an engine is itself an item, the root of a tree."""
