from measurements.judge.lines import judged
from measurements.judge.readings import values_of
from measurements.judge.scales import Typed, scale_for
from measurements.limits.exact import exact
from measurements.metrology.errors import MeasureError
from measurements.metrology.fits import fit_ends
from measurements.readings.errors import ReadingRefused
from measurements.readings.models import Reading
from measurements.readings.points import points_of


def _judge(row, texts, unit):
    values, places = values_of(" ".join(texts))
    scale = scale_for(exact(row), [Typed(unit, places, 0)])
    f = scale.values[0]
    j, c = judged(scale, min(values) * f, max(values) * f, 0)
    return dict(
        minimum=scale.text(min(values) * f),
        maximum=scale.text(max(values) * f),
        mean=scale.mean_text(sum(values) * f, len(values)),
        verdict=str(j.verdict),
        reason="; ".join(j.reasons),
        conformity=c,
    )


def reading(*, row, points, unit, gauge, condition, set_up, temperature, corrects, correction_reason, taken_at, sequence, by, at):
    try:
        out = _judge(row, [points[p] for p in points_of(row)], unit)
    except MeasureError as e:
        raise ReadingRefused(str(e))
    return Reading(
        row=row,
        points=[[*p, points[p]] for p in points_of(row)],
        unit=unit,
        gauge=gauge,
        condition=condition,
        set_up=set_up,
        temperature=temperature,
        corrects=corrects,
        correction_reason=correction_reason or None,
        taken_at=taken_at,
        received_at=at,
        sequence=sequence,
        taken_by=by,
        evaluator_version="1",
        **out,
    )


def _f(x):
    from decimal import Decimal

    return f"{Decimal(x):f}"


def derived(*, row, source, by, at):
    from decimal import Decimal

    pts = {(p, d): Decimal(v) for p, d, v in source.points}
    if row.quantity == "out-of-round":
        vals = [
            max(
                max(v for (p, d), v in pts.items() if p == q) - min(v for (p, d), v in pts.items() if p == q)
                for q in {p for p, _ in pts}
            )
        ]
    elif row.quantity == "taper":
        a, b = row.planes
        vals = [pts[b, d] - pts[a, d] for d in {d for p, d in pts if p == a}]
    else:
        vals = list(pts.values())
    out = _judge(row, [_f(min(vals)), _f(max(vals))], source.unit)
    return Reading(
        row=row,
        unit=source.unit,
        gauge=None,
        condition=source.condition,
        source=source,
        taken_at=source.taken_at,
        received_at=at,
        sequence=source.sequence,
        taken_by=by,
        evaluator_version="1",
        **out,
    )


def fitted(*, row, outer, inner, not_permitted, by, at):
    from decimal import Decimal

    o = [Decimal(v) for p, d, v in outer.points if not row.outer_planes or p in row.outer_planes]
    i = [Decimal(v) for p, d, v in inner.points if not row.inner_planes or p in row.inner_planes]
    e = fit_ends(min(o), max(o), min(i), max(i))
    out = _judge(row, [_f(e.tightest), _f(e.loosest)], outer.unit)
    if not_permitted:
        out |= dict(verdict="not judged", reason=not_permitted)
    return Reading(
        row=row,
        unit=outer.unit,
        condition=outer.condition,
        outer=outer,
        inner=inner,
        taken_at=max(outer.taken_at, inner.taken_at),
        received_at=at,
        sequence=max(outer.sequence, inner.sequence),
        taken_by=by,
        evaluator_version="1",
        **out,
    )


def write(*readings):
    for r in readings:
        for n in ("source", "outer", "inner"):
            setattr(r, n, getattr(r, n))
        r.save(force_insert=True)
    return []
