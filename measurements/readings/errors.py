class ReadingRefused(Exception):
    status = 422
