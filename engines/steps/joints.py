"""A joint that is tightened in an order: which tries there were, which of them is void and why, and what comes next. Pure.

A try belongs to one hand. It is void when a fastener is turned out of its order, when another person begins, when more time
passes between two fasteners than the data allow, or when somebody says so; then the joint is begun again from nothing.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

Place = tuple[str, str]  # which pass, and which fastener of it; a blank fastener is what is made ready for the pass
CALLED: Place = ("", "")


@dataclass(frozen=True)
class Act:
    """What one person did at one place: `is_done` with it, or with `ruined` it made the whole joint void."""

    place: Place
    hand: int
    at: datetime
    is_done: bool = True
    ruined: str = ""


@dataclass(frozen=True)
class Try:
    """One beginning of the joint, and how far it came. `turned_at` is when its last fastener was turned."""

    number: int
    hand: int
    done: int = 0
    turned_at: datetime | None = None
    void: str = ""


@dataclass(frozen=True)
class Order:
    """The places of a joint in the order of the data, and the longest time between two fasteners, if the data give one."""

    places: tuple[Place, ...]
    within: timedelta | None = None

    def is_complete(self, last: Try) -> bool:
        return not last.void and last.done == len(self.places)


@dataclass(frozen=True)
class Standing:
    """How the joint stands: its tries, and where the hands at hand go on. `why` is why the last try does not count."""

    order: Order
    tries: Sequence[Try]
    following: Place | None
    why: str

    @property
    def number(self) -> int:
        """Of the try that the next act belongs to."""
        return (self.tries[-1].number if self.tries else 0) + (not self.tries or bool(self.why))

    @property
    def done(self) -> tuple[Place, ...]:
        return () if self.why or not self.tries else self.order.places[: self.tries[-1].done]


def in_passes(orders: Iterable[Sequence[str]]) -> tuple[Place, ...]:
    """Each pass by its number from 1: what is made ready, then its fasteners."""
    return tuple((str(number), fastener) for number, order in enumerate(orders, start=1) for fastener in ("", *order))


def tries_of(order: Order, acts: Iterable[Act]) -> list[Try]:
    """The tries that the acts made, oldest first; only the last can be valid."""
    tries: list[Try] = []
    for act in acts:
        if tries:
            why = act.ruined if act.place == CALLED else interruption(order, tries[-1], act.hand, act.at)
            tries[-1] = replace(tries[-1], void=tries[-1].void or why)
        if act.place == CALLED:
            continue
        if not tries or tries[-1].void:
            tries.append(Try(len(tries) + 1, act.hand))
        tries[-1] = _after(order, tries[-1], act)
    return tries


def interruption(order: Order, last: Try, hand: int | None, at: datetime | None) -> str:
    """Why a half done try would be void in these hands at this moment; blank where it can go on, or needs nothing more."""
    if last.void or order.is_complete(last):
        return ""
    if hand is not None and hand != last.hand:
        return "another person began"
    if order.within and at and last.turned_at and at - last.turned_at > order.within:
        return f"more than {order.within // timedelta(minutes=1)} minutes passed between two fasteners"
    return ""


def next_place(order: Order, tries: Sequence[Try], hand: int | None = None, at: datetime | None = None) -> Place | None:
    """Where these hands go on at this moment: at the very beginning after a void try, nowhere when all is done."""
    if not tries or tries[-1].void or interruption(order, tries[-1], hand, at):
        return order.places[0]
    return None if order.is_complete(tries[-1]) else order.places[tries[-1].done]


def _after(order: Order, last: Try, act: Act) -> Try:
    turned_at = act.at if act.place[1] else last.turned_at
    if last.done == len(order.places) or act.place != order.places[last.done]:
        return replace(last, turned_at=turned_at, void=act.ruined or "out of order")
    return replace(last, done=last.done + act.is_done, turned_at=turned_at, void=act.ruined)
