"""Values read on named rows, at every place, with the gauge that read them; the verdict comes at once."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any

from django import forms
from django.utils import timezone

from engines.inspection.models import Taken
from engines.inspection.services import enter_reading
from engines.inspection.services.reading import Given
from engines.inspection.standing import Standing, State
from engines.steps.kinds.figures import drawn, not_asked_about, plain
from engines.steps.second_look import AGAIN, SecondLook, is_repeated
from engines.steps.spots import is_there
from engines.steps.work import ROWS, Content, Step, StepRefused, Work
from measurements.gauges.models import Gauge
from measurements.limits.models import Condition, LimitRow
from measurements.metrology.errors import MeasureError
from measurements.metrology.quantity import split_figure
from measurements.readings.models import Reading
from measurements.readings.points import plan
from shopfloor.people.models import Person

EARLIEST = timedelta(days=7)


class GaugeField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """The gauges by number, each with the range that tells three micrometers apart."""

    def label_from_instance(self, gauge: Gauge) -> str:
        return f"{gauge}, {gauge.range_min} to {gauge.range_max} {gauge.unit}"


class ReadingForm(SecondLook):
    """One field for each point of the plan; a second look where the place before has the same numbers throughout."""

    size_class = forms.ChoiceField(label="Size class", required=False)
    gauge = GaugeField(Gauge.objects.none(), label="Gauge", required=False, empty_label="choose the gauge")
    set_up = forms.BooleanField(label="Set up as the data ask", required=True)
    temperature = forms.CharField(
        label="Temperature of the part, °C",
        max_length=12,
        required=False,
        help_text="Blank when it lay long enough beside the gauge.",
    )
    taken_at = forms.DateTimeField(widget=forms.HiddenInput, required=False)
    sequence = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=0)
    corrects = forms.UUIDField(widget=forms.HiddenInput, required=False)
    correction_reason = forms.CharField(label="What was wrong with the earlier reading", max_length=200)

    def __init__(
        self,
        *args: Any,
        row: LimitRow,
        classes: tuple[str, ...],
        corrects: Reading | None,
        before: Taken | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.row, self.before = row, before
        points = {f"point_{index}": _point(row, point) for index, point in enumerate(plan(row))}
        self.fields = {**points, **self.fields}
        gauge: Any = self.fields["gauge"]
        gauge.queryset = Gauge.objects.filter(retired_at__isnull=True).order_by("number")
        size: Any = self.fields["size_class"]
        size.choices = [(each, each or "standard") for each in classes]
        if len(classes) < 2:
            del self.fields["size_class"]
        if row.set_up:
            self.fields["set_up"].label = f"Set up: {row.set_up}"
        else:
            del self.fields["set_up"]
        if corrects is None:
            del self.fields["correction_reason"]
        if not self._is_repeated():
            del self.fields[AGAIN]

    def clean(self) -> dict[str, Any]:
        given = super().clean() or {}
        if AGAIN in self.fields and not given.get(AGAIN) and self.before:
            self.add_error(
                AGAIN, f"{self.before.place} has the same. Read the gauge again; if it is the same, tick that you did."
            )
        return given

    def _is_repeated(self) -> bool:
        typed = [str(self.data.get(f"point_{index}", "")) for index, _ in enumerate(plan(self.row))]
        points = self.before.reading.points if self.before else []
        return bool(points) and all(is_repeated(value, now) for (_, _, value), now in zip(points, typed, strict=True))

    def points(self) -> tuple[list[tuple[str, str, str]], str]:
        """(plane, direction, value) of each point, and the one unit of all. Raises StepRefused."""
        try:
            read = [split_figure(self.cleaned_data[f"point_{index}"], self.row.unit) for index, _ in enumerate(plan(self.row))]
        except MeasureError as error:
            raise StepRefused(f"{str(error)[0].upper()}{str(error)[1:]}.") from None
        units = {unit for _, unit in read}
        if len(units) > 1:
            raise StepRefused(
                f"These values stand in {' and '.join(sorted(units))}. Enter all points of one reading in one unit."
            )
        return [(*point, value) for point, (value, _) in zip(plan(self.row), read, strict=True)], units.pop()


def _point(row: LimitRow, point: tuple[str, str]) -> forms.CharField:
    where = " ".join(filter(None, (point[0], f"{point[1]}°" if point[1].isdigit() else point[1])))
    widget = forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"})
    return forms.CharField(label=where or "Value", max_length=40, widget=widget, help_text=f"In {row.unit}, or with its unit.")


class ReadingStep(Step):
    name = "reading"
    words = "reading"
    names_what, needs_names = ROWS, True
    asks_of_names = True
    caution = "Clean the part and the gauge, and let both come to the same temperature."

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> ReadingForm | None:
        return None

    def form_at(self, work: Work, row: str, place: str, corrects: Reading | None, data: Any = None) -> ReadingForm:
        now = timezone.now()
        limits = work.now.rows.any(row)
        others = [each for each in work.now.taken.values() if each.row == row and each.place != place and each.reading.points]
        before = others[-1] if others and corrects is None else None
        initial = {"taken_at": now, "sequence": int(now.timestamp() * 1000), "corrects": corrects.pk if corrects else None}
        return ReadingForm(
            data, row=limits, classes=work.now.rows.classes(row), corrects=corrects, before=before, initial=initial
        )

    def take(
        self, work: Work, row: str, place: str, form: ReadingForm, corrects: Reading | None, *, by: Person, at: datetime
    ) -> Reading:
        given = form.cleaned_data
        points, unit = form.points()
        reworked = work.now.of(work.now.rows.by_key[row, place]).state == State.PENDING
        condition = Condition.AFTER_REWORK if reworked else work.now.rows.any(row).condition
        return enter_reading(
            visit=work.visit,
            row=row,
            place=place,
            given=Given(
                points=points,
                unit=unit,
                gauge=given["gauge"],
                condition=condition,
                size_class=given.get("size_class", ""),
                set_up=form.row.set_up if given.get("set_up") else "",
                temperature=given["temperature"],
                sequence=given["sequence"] or 0,
            ),
            corrects=corrects,
            correction_reason=given.get("correction_reason", ""),
            taken_at=_taken_at(given["taken_at"], at),
            by=by,
            at=at,
        )

    def missing(self, work: Work) -> list[str]:
        open_ones = (each for each in self._standings(work) if each.state == State.MISSING or _is_back_unread(work, each))
        left = (each for each in open_ones if self._is_there(work, each))
        return [
            f"{line.part}, {line.row.characteristic} at {line.standing.requirement.place}: not read yet."
            for line in (drawn(work, each) for each in left)
        ]

    def undecided(self, work: Work) -> list[Reading]:
        return not_asked_about(work, self._standings(work, computed=True))

    def shown(self, work: Work) -> Content:
        return {"readings": [plain(work, each) for each in self._standings(work, computed=True)]}

    def lines(self, work: Work) -> Content:
        return {"lines": [drawn(work, each) for each in self._standings(work, computed=True)]}

    def _standings(self, work: Work, *, computed: bool = False) -> list[Standing]:
        """Of the rows named, with `computed` also of what is made of their points."""
        names = set(work.operation.names)
        every = work.now.rows.requirements
        return [work.now.of(each) for each in every if each.row in names or (computed and each.base in names)]

    def _is_there(self, work: Work, standing: Standing) -> bool:
        return is_there(work, (standing.requirement.line, standing.requirement.at))


def _is_back_unread(work: Work, standing: Standing) -> bool:
    """Whether the part came back from a vendor and was not read since, as the order asks."""
    requirement = standing.requirement
    here = (each for each in work.now.outside if each.is_back and requirement.row in each.read_again)
    mine = [each for each in here if (each.line, each.place) == (requirement.line, requirement.at)]
    return bool(mine) and standing.read is None


def _taken_at(given: datetime | None, at: datetime) -> datetime:
    """The tablet's clock where it is believable, else ours."""
    return given if given and at - EARLIEST < given <= at else at
