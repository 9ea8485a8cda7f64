"""Refusals of a reading, worded for the mechanic who entered it."""


class ReadingRefused(Exception):
    """A reading that cannot be kept; nothing was. `status` is its HTTP answer."""

    status = 422


class AheadOfTime(ReadingRefused):
    def __init__(self) -> None:
        super().__init__("This reading was taken later than now. Set the clock of the tablet right and enter the reading again.")


class BadCorrection(ReadingRefused):
    """A correction without its reason, or of something else."""


class CorrectedAlready(ReadingRefused):
    status = 409

    def __init__(self) -> None:
        super().__init__("That reading was corrected already. Open the reading that stands now and correct that one.")


class SetUpNotConfirmed(ReadingRefused):
    def __init__(self, set_up: str) -> None:
        super().__init__(f"This is read with the part set up as the data say: {set_up}. Set it up, confirm it, then enter it.")


class WrongReading(ReadingRefused):
    """A source or a mate that is not what the row names."""
