"""One file for each kind of step: what is entered, what is kept, what is still missing before it may be signed.

A step knows no traveler: it is given the operation, the visit and how the engine stands, and answers. What it writes goes
through the rooms below; what it returns is kept by the traveler as an entry of the operation.
"""
