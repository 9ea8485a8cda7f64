"""Starting the product: which processes it is made of, one watcher over them, and the shop's own certificate.

Nothing imports this room. `manage.py serve` runs everything and stops everything; `manage.py serve web`, `worker` and
`scheduler` become that one process, for hosts where something else does the watching.
"""
