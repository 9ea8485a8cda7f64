class PartRefused(Exception):
    status = 409
