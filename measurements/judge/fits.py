"""Computing and judging the fits, once every reading has been seen."""

from collections.abc import Iterable, Iterator

from measurements.judge.lines import Answer, Line, Wording, judged
from measurements.judge.mates import Mate, Mates
from measurements.judge.scales import Scale, Typed, scale_for
from measurements.metrology.fits import combined_u_squared, fit_ends
from measurements.metrology.limits import LimitRow
from measurements.metrology.verdicts import NO_MATE


def fit_lines(fits: Iterable[LimitRow], wordings: dict[str, Wording], mates: Mates) -> Iterator[Line]:
    """A line for each fit in table order and each position where a mate was read, by first appearance.

    A fit stands on the figures read on its mates, each in the unit it was read in, so it is judged even where the unit
    columns of a mate's own row disagree: those are limits of the mate, and no limit of the mate enters the fit.
    """
    for fit in fits:
        scales: dict[tuple[Typed, Typed], Scale] = {}
        wording = wordings[fit.row]
        for position, outer, inner in mates.pairs(fit.outer_row, fit.inner_row):
            if outer is None or inner is None:
                yield fit.row, position, _without_mate(fit.outer_row if outer is None else fit.inner_row)
                continue
            typed = outer.typed, inner.typed
            scale = scales.get(typed)
            if scale is None:
                scale = scales[typed] = scale_for(fit, typed)
            yield fit.row, position, _fit_answer(outer, inner, scale, wording)


def _fit_answer(outer: Mate, inner: Mate, scale: Scale, wording: Wording) -> Answer:
    outer_factor, inner_factor = scale.values
    tightest, loosest = fit_ends(
        outer.least * outer_factor, outer.greatest * outer_factor, inner.least * inner_factor, inner.greatest * inner_factor
    )
    outer_u, inner_u = scale.uncertainties
    judgement, conformity = judged(scale.held, tightest, loosest, combined_u_squared(outer.u * outer_u, inner.u * inner_u))
    return Answer(
        scale.text(tightest),
        scale.text(loosest),
        scale.mean_text(tightest + loosest, 2),
        judgement.verdict,
        conformity,
        wording.of(judgement.reasons),
    )


def _without_mate(missing: str) -> Answer:
    return Answer("", "", "", NO_MATE.verdict, "", f"{NO_MATE.reasons[0]}: {missing}")
