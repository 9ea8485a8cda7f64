"""A stay of one engine in the shop: what came in, its areas, the stage and bench of each, what was tagged at teardown.

A visit pins the engine data that was in force when it was received; operations that are added to it stand beside them, and
`route` gives both as one. An area moves on its own; who may move it and what
holds it up is decided above, in `release`, which alone calls `move_area` and `close_visit`.
"""
