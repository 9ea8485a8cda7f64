"""Private texts: what of them goes into a body, and what stands beside it until it is erased."""

from dataclasses import dataclass

from shopfloor.ledger.hashing import new_salt, text_hash

ERASED = "[erased]"


@dataclass(frozen=True)
class PrivateText:
    digest: bytes
    salt: bytes
    text: str
    about_label: str
    about_id: str
    field: str


def veil(texts: dict[str, str | None], about_label: str, about_id: str) -> tuple[dict[str, object], list[PrivateText]]:
    """The part of the body that stands for `texts`, and the texts to keep beside it.

    A text becomes its salted hash; none stays none; a field that shows the erased marker says that it was erased.
    """
    veiled: dict[str, object] = {}
    kept = []
    for field, text in texts.items():
        if text is None or text == ERASED:
            veiled[field] = None if text is None else {"erased": True}
            continue
        salt = new_salt()
        digest = text_hash(salt, text)
        veiled[field] = {"salted": digest.hex()}
        kept.append(PrivateText(digest, salt, text, about_label, about_id, field))
    return veiled, kept
