"""Refusals about parts, worded for whoever holds one in the hand. `status` is the HTTP answer; nothing was changed."""


class PartRefused(Exception):
    status = 409


class FieldRefused(PartRefused):
    status = 422


class SerialTaken(PartRefused):
    def __init__(self, number: str, serial: str) -> None:
        super().__init__(
            f"Part number {number} with serial {serial} is on record already. Look it up instead of adding it again."
        )


class AlreadyFitted(PartRefused):
    def __init__(self, item: str) -> None:
        super().__init__(f"{item} is fitted somewhere already, or was at that time. Remove it there first.")


class NotFitted(PartRefused):
    def __init__(self, item: str) -> None:
        super().__init__(f"{item} was removed already. Reload the page.")


class Scrapped(PartRefused):
    def __init__(self, item: str) -> None:
        super().__init__(f"{item} was scrapped. A scrapped part is never fitted again.")


class StillFitted(PartRefused):
    def __init__(self, item: str) -> None:
        super().__init__(f"{item} is still fitted. Remove it before it is scrapped.")


class LotIsEmpty(PartRefused):
    def __init__(self, item: str) -> None:
        super().__init__(f"Nothing is left of the lot {item}. Take from another lot, or book parts in.")


class NotAtHand(PartRefused):
    def __init__(self, where: str) -> None:
        super().__init__(f"{where} Nothing is done with a part that is not here: book it back in first.")
