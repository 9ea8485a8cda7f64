"""Acts on the traveler: opening it, entering, signing, accepting, opening again; and the roster of authorisations."""

from engines.traveler.services.authorising import authorise, end_authorisation
from engines.traveler.services.entering import enter, enter_all, measure
from engines.traveler.services.opening import open_visit
from engines.traveler.services.planning import plan_due
from engines.traveler.services.reopening import ask_again, reopen, reopen_from
from engines.traveler.services.signing import accept, sign

__all__ = [
    "accept",
    "ask_again",
    "authorise",
    "end_authorisation",
    "enter",
    "enter_all",
    "measure",
    "open_visit",
    "plan_due",
    "reopen",
    "reopen_from",
    "sign",
]
