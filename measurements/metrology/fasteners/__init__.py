"""Fasteners: torque and preload, stretch, the order of tightening, castle nuts, and whether a wrench may be used.

Every target, limit, retry rule and drag is data. Too little or too much tension can lose a connecting rod or a propeller: the
manufacturer's current data govern, and a joint that was disturbed or tightened out of order is begun anew.
"""
