"""The colours of light and dark are legible.

Source of the ratio and of the thresholds: W3C, Web Content Accessibility Guidelines 2.2, success criteria 1.4.3 (text,
4.5 to 1) and 1.4.11 (lines that carry meaning, 3 to 1), and its definition of relative luminance.
"""

import re

import pytest
from django.conf import settings

CSS = settings.BASE_DIR / "static" / "css"
TEXT = [
    *((ink, ground) for ink in ("ink", "ink-soft", "dye", "outside") for ground in ("stone", "paper", "sunk")),
    *((verdict, "paper") for verdict in ("within", "serviceable", "close", "unjudged", "brass")),
    *((verdict, "stone") for verdict in ("within", "serviceable", "close", "unjudged")),
    *(("ink", band) for band in ("fresh-band", "worn-band")),
    ("granite-ink", "granite"),
    ("dye-ink", "dye-fill"),
    ("grave-ink", "grave"),
    ("tag-ink", "tag"),
    ("tag-ink", "brass-bright"),
]
LINES = [
    *(("scribe", ground) for ground in ("stone", "paper", "sunk")),
    *(
        (verdict, band)
        for verdict in ("within", "serviceable", "outside", "close", "unjudged")
        for band in ("fresh-band", "worn-band")
    ),
    ("brass-bright", "granite"),
    ("dye", "paper"),
]


def colours(scheme):
    return dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", (CSS / f"{scheme}.css").read_text()))


def luminance(colour):
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4 for channel in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def ratio(one, other):
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def test_the_ratio_is_the_one_of_the_guidelines():
    """Black on white is 21 to 1, a colour on itself 1 to 1 (WCAG 2.2, definition of contrast ratio)."""
    assert ratio("#000000", "#ffffff") == pytest.approx(21)
    assert ratio("#777777", "#777777") == pytest.approx(1)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("ink", "ground"), TEXT)
def test_text_stands_out(scheme, ink, ground):
    named = colours(scheme)
    assert ratio(named[ink], named[ground]) >= 4.5


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("line", "ground"), LINES)
def test_lines_stand_out(scheme, line, ground):
    named = colours(scheme)
    assert ratio(named[line], named[ground]) >= 3


def test_both_schemes_name_the_same_colours():
    assert colours("light").keys() == colours("dark").keys()


@pytest.mark.parametrize("sheet", sorted(CSS.glob("*.css")), ids=lambda sheet: sheet.stem)
def test_every_colour_used_is_named(sheet):
    assert set(re.findall(r"var\(--([\w-]+)\)", sheet.read_text())) <= colours("light").keys()
