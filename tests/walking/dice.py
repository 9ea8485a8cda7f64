"""Chance, from a seed: the same seed walks the same way."""

from collections.abc import Sequence
from random import Random
from typing import TypeVar

Thing = TypeVar("Thing")


class Dice(Random):
    """`care` is how careful the hand is: a careful one slips less often."""

    care = 1.0

    def one_of(self, likely: Sequence[Thing], otherwise: Sequence[Thing] = ()) -> Thing | None:
        """Mostly one that makes sense."""
        among = otherwise if otherwise and (not likely or slip(self, 0.4)) else likely
        return self.choice(among) if among else None


def slip(dice: Dice, chance: float = 0.12) -> bool:
    return dice.random() * dice.care < chance
