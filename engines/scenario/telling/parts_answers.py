"""What a good hand answers where parts are cleaned, tested for cracks, paired, or scrapped: all of it, in the order asked."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from engines.scenario.telling.bench import BY_ANOTHER, Bench, Given, picture_of
from engines.steps import cleaning_data, examined, outside, scrapping
from engines.steps.crack_data import at_each_part
from engines.steps.crack_forms import IS_CLEANED, NOTHING
from engines.steps.details import figure_in
from engines.steps.kinds import accessory_fate, cleaning
from engines.steps.pairing import Pairs
from engines.steps.spots import is_there
from engines.steps.work import Spot, Work


def cleaned(work: Work, bench: Bench) -> Iterator[Given]:
    """Whoever saw that no blasting media are left is another person than whoever blasted."""
    details = work.operation.details
    for spot in (each for each in work.spots if is_there(work, each)):
        line, medium = spot[0], cleaning_data.permitted(details, spot[0])[0]
        asked: list[tuple[str, str, Any]] = []
        if plugs := cleaning_data.plugs(details, line):
            asked.append((cleaning.PLUGS, "", plugs))
        asked.append((cleaning.MEDIUM, "", medium))
        if cleaning_data.is_blasted(details, medium):
            asked.append((cleaning.MASKED, "", cleaning_data.masked_first(details, line)))
            asked.append((cleaning.REMOVED, "", "blown out, washed, blown out again"))
            asked.append((cleaning.WITNESS, "", cleaning.NONE_LEFT))
        asked.append((cleaning.CLEAN, "", cleaning.IS_CLEAN))
        asked += [(cleaning.PASSAGE, each, details["proofs"][0]) for each in cleaning_data.passages(details, line)]
        yield from (_answer(act, spot, what, answer, by_another=act == cleaning.WITNESS) for act, what, answer in asked)


def tested(work: Work, bench: Bench) -> Iterator[Given]:
    details = work.operation.details
    yield {"asked": examined.TECHNIQUE, "answer": details["technique"]["revision"]}
    yield {"asked": examined.BATH, "batch": "demo-B4", "concentration": _within(details["bath"])}
    each_part = at_each_part(details)
    for check in (each for each in details["checks"] if each["check"] not in each_part):
        yield {"asked": f"{examined.CHECK}: {check['check']}", **_shown(check, bench)}
    for turn, spot in enumerate(each for each in work.spots if is_there(work, each)):
        for check in (each for each in details["checks"] if each["check"] in each_part):
            yield {**_answer(examined.CHECK, spot, check["check"]), **_shown(check, bench, turn)}
        yield _answer(examined.LOOK, spot, "", NOTHING)
        if "residual" in details:
            yield {**_answer(examined.DEMAGNETISED, spot), **_shown(details["residual"], bench, turn)}
        yield _answer(examined.CLEANED, spot, "", IS_CLEANED)


def paired(work: Work, bench: Bench) -> Iterator[Given]:
    """What was read of a mate is said of it, and of the other what the data permit with it."""
    pairs = Pairs(work)
    for place in pairs.places:
        known = [pairs.class_read(mate, place) if mate.row else None for mate in pairs.mates]
        fits = (each for each in pairs.table if known[0] in (None, each.first) and known[1] in (None, each.second))
        together = next(fits)
        yield {"asked": f"{place}: {pairs.mates[0].name}", "answer": together.first}
        asked = f"{place}: {pairs.mates[1].name}, together with {together.first}"
        yield {"asked": asked, "answer": together.second, "reason": ""}


def scrapped(work: Work, bench: Bench) -> Iterator[Given]:
    for old in scrapping.olds_of(work):
        where = work.words(old.spot)
        told = {"identity": old.item.identity, "how": "crushed in the vice", "photo": picture_of(f"crushed: {where}")}
        yield {"asked": f"{scrapping.SCRAP}: {where}", **told}
        yield {"asked": f"{scrapping.WITNESS}: {where}", "answer": scrapping.UNUSABLE, BY_ANOTHER: True}
        new = {"identity": f"NEW-{work.visit.number}", "evidence": f"demo-{work.visit.number}"}
        yield {"asked": f"{scrapping.NEW}: {where}", **new}


def fated(work: Work, bench: Bench) -> Iterator[Given]:
    """The first that the data permit, with an invented number; what never came is said to be so."""
    for spot in work.spots:
        fate = work.operation.details["permitted"][spot[0]][0] if is_there(work, spot) else accessory_fate.NOT_RECEIVED
        yield {"asked": work.words(spot), "answer": fate, "paper": f"demo-{spot[0]}-{work.visit.number}"}


def kept_here(work: Work, bench: Bench) -> Iterator[Given]:
    """Nothing goes out: the data let a part stay that is read within its limits, and this one is."""
    for spot in (each for each in work.spots if is_there(work, each)):
        asked = f"{outside.ASKS[outside.ORDER]}: {', '.join(spot)}"
        yield {"asked": asked, "answer": outside.STAYS, "reason": "read within its limits, see the readings of this visit"}


def _answer(act: str, spot: Spot, what: str = "", answer: Any = "", *, by_another: bool = False) -> Given:
    asked = ": ".join(filter(None, (act, *spot, what)))
    return {"asked": asked, "answer": answer, **({BY_ANOTHER: True} if by_another else {})}


def _shown(wanted: Mapping[str, str], bench: Bench, turn: int = 0) -> Given:
    shown = Decimal(_within(wanted)) + turn % 2 * Decimal("0.1")
    return {"instrument": bench.reaching(wanted["unit"], shown), "shown": f"{shown:f}", "read_again": True}


def _within(bounds: Mapping[str, str]) -> str:
    """Between both bounds, or on the good side of the only one."""
    least, greatest = (figure_in(bounds, name) for name in ("least", "greatest"))
    if least is None or greatest is None:
        return f"{(least or Decimal(0)) * Decimal('1.2') or (greatest or Decimal(0)) / 2:f}"
    return f"{(least + greatest) / 2:f}"
