"""Refusals of the gauge register, worded for the person at the counter."""


class GaugeRefused(Exception):
    """An act on a gauge that cannot be; nothing was changed. `status` is its HTTP answer."""

    status = 409


class FigureRefused(GaugeRefused):
    """A figure or a day that cannot be."""

    status = 422


class NumberTaken(GaugeRefused):
    def __init__(self, number: str) -> None:
        super().__init__(f"Number {number} is marked on another gauge already. Give this one its own number.")


class Retired(GaugeRefused):
    def __init__(self, number: str) -> None:
        super().__init__(f"Gauge {number} is retired. A retired gauge is neither calibrated nor retired again.")


class CorrectedAlready(GaugeRefused):
    def __init__(self) -> None:
        super().__init__("That calibration was corrected already. Correct the one that stands now.")
