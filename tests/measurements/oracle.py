"""The rules (a) to (h) written a second time, slowly: fractions of the row's unit, one sentence of the issue after another."""

from fractions import Fraction
from statistics import NormalDist

INCH = Fraction("25.4")


def number(text):
    return Fraction(text) if text else None


def in_unit(text, unit, wanted):
    value = Fraction(text)
    if unit == wanted:
        return value
    return value * INCH if wanted == "mm" else value / INCH


def half_even(value, decimals):
    return Fraction(round(value * 10**decimals), 10**decimals)


def beyond(value, low, high):
    """How far beyond a limit, 0 when inside."""
    return max([Fraction(0), *([low - value] if low is not None else []), *([value - high] if high is not None else [])])


def nearest_inside(value, low, high):
    return min([*([value - low] if low is not None else []), *([high - value] if high is not None else [])], default=None)


def effective(row):
    sides = []
    for side in ("min", "max"):
        service, new = number(row[f"service_{side}"]), number(row[f"new_{side}"])
        sides.append(service if service is not None else None if row["worn"] == "fit" else new)
    return sides


def verdict(row, values, u_squared, fits):
    """Verdict and reason; `values` in the row's unit, `u_squared` None where not stated."""
    new = number(row["new_min"]), number(row["new_max"])
    if not any(row[name] for name in ("new_min", "new_max", "service_min", "service_max")):
        return "not judged", "no limit"
    guard = row["rule"] == "guard" or (row["rule"] == "" and u_squared is not None)
    note = [] if row["rule"] or guard else ["uncertainty not stated"]
    if guard and u_squared is None:
        return "not judged", "uncertainty not stated"
    low, high = effective(row)
    if not guard:
        u_squared = Fraction(0)
        if row["basis"] == "rounding":
            values = [half_even(value, int(row["decimals"])) for value in values]
        if any(beyond(value, low, high) > 0 for value in values):
            return "outside limits", "; ".join(note)
    else:
        if any(beyond(value, low, high) ** 2 > u_squared for value in values):
            return "outside limits", ""
        if low is not None and high is not None and 4 * u_squared > (high - low) ** 2:
            return "not judged", "gauge cannot decide this"
        for value in values:
            room = nearest_inside(value, low, high)
            if room is not None and (room < 0 or room**2 < u_squared):
                return "too close to call", ""
    if row["worn"] == "fit":
        unserved = [None if row[f"service_{side}"] else limit for side, limit in zip(("min", "max"), new, strict=True)]
        if any(beyond(value, *unserved) > 0 for value in values):
            return "not judged", "; ".join([f"limit is on the fit: {fits}", *note])
    if new != (None, None):
        rooms = [nearest_inside(value, *new) for value in values]
        if all(room >= 0 and room**2 >= u_squared for room in rooms):
            return "within new limits", "; ".join(note)
    return "serviceable", "; ".join(note)


def conformity(row, values, u_squared):
    low, high = effective(row)
    if u_squared is None or (low is None and high is None):
        return None
    deviation = float(u_squared) ** 0.5 / 2

    def probability(value):
        normal = NormalDist(float(value), deviation)
        below = 0.0 if low is None else normal.cdf(float(low))
        return (1.0 if high is None else normal.cdf(float(high))) - below

    return min(map(probability, values))
