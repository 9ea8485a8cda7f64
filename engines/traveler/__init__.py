"""The traveler of a visit: its operations, what was entered at each, and who signed what they saw.

The operations come from the route of the pinned data, for the scope and the reasons of the visit. An operation is signed by
whoever did it and, at a hold point, accepted by another person; both enter their password again, and what was shown to them is
kept with its hash. Reopened, it begins a new round and the earlier one stays. Beside the role the roster of authorisations
decides who may enter, sign, accept, approve data and release: by kind of work and level, engine models and days.
"""
