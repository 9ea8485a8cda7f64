"""The hash of an event and the salted hash of a private text.

An event:  SHA-256( b"main-journal event 1" ‖ length of chain ‖ chain ‖ sequence ‖ previous ‖ body )
    length of chain: 4 bytes, big-endian, counting bytes · chain: UTF-8 · sequence: 8 bytes, big-endian, from 1
    previous: the 32 bytes of the hash before, zeros for the first · body: canonical JSON, to the end

A private text:  SHA-256( b"main-journal text 1" ‖ salt of 32 random bytes ‖ text in UTF-8 )
    The salt is erased together with the text: without it a short name could be guessed from its hash.
"""

import secrets
from hashlib import sha256

EVENT_TAG = b"main-journal event 1"
TEXT_TAG = b"main-journal text 1"
NOTHING_BEFORE = bytes(32)


def event_hash(chain: str, sequence: int, previous: bytes, body: bytes) -> bytes:
    name = chain.encode()
    return sha256(EVENT_TAG + len(name).to_bytes(4, "big") + name + sequence.to_bytes(8, "big") + previous + body).digest()


def text_hash(salt: bytes, text: str) -> bytes:
    return sha256(TEXT_TAG + salt + text.encode()).digest()


def new_salt() -> bytes:
    return secrets.token_bytes(32)
