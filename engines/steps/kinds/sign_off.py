"""Something is done as the data say, and a person puts their name to it."""

from engines.steps.work import PARTS, Step


class SignOff(Step):
    name = "sign-off"
    words = "sign-off"
    names_what = PARTS
