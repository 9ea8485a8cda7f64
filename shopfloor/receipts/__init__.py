"""Receipts make a retry safe.

A tablet on poor Wi-Fi sends the same post again when no answer came. The post carries a key of its own making; the key
stands in the database with the person, the route, a hash of what was sent, and the answer, in the same transaction as
the act. Same key and content: the same answer, and nothing is done twice. Same key with other content or from another
person: refused. The right to act is checked before any of this.
"""
