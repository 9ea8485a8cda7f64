"""Size classes and regrinds: the least metal to take off so that every surface of a group is true again.

One account for shafts (ground smaller) and bores (made larger for an oversize piston). Limits, allowances, policies and what
must follow are data; nothing here knows an engine.
"""
