"""A run on the stand and what it is made of. Nothing here changes; a run and a step are closed once."""

from django.db import models
from django.db.models import Q
from uuid_utils.compat import uuid7

from engines.visits.models import Visit
from shopfloor.documents.models import StoredFile
from shopfloor.jobs.models import Job
from shopfloor.people.models import Person


class Outcome(models.TextChoices):
    PASSED = "passed"
    FAILED = "failed"
    BROKEN_OFF = "broken off"


class Run(models.Model):
    """Its schedule is that of the data pinned by the visit. `findings` is what was found when it ended, as canonical JSON."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="runs")
    number = models.PositiveSmallIntegerField()
    begun_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    begun_at = models.DateTimeField()
    ended_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    ended_at = models.DateTimeField(null=True)
    outcome = models.CharField(max_length=12, choices=Outcome.choices, blank=True)
    why = models.CharField(max_length=600, blank=True)
    findings = models.TextField(blank=True)
    findings_sha256 = models.CharField(max_length=64, blank=True)

    class Meta:
        ordering = ["number"]
        indexes = [models.Index(fields=["visit", "ended_at"], name="runs_of_visit")]
        constraints = [
            models.UniqueConstraint(fields=["visit", "number"], name="runs_are_numbered"),
            models.UniqueConstraint(fields=["visit"], condition=Q(ended_at__isnull=True), name="one_run_at_a_time"),
            models.CheckConstraint(
                condition=Q(ended_at__isnull=True, outcome="") | Q(ended_at__isnull=False, outcome__in=Outcome.values),
                name="a_run_ends_with_an_outcome",
            ),
        ]

    def __str__(self) -> str:
        return f"Run {self.number}"

    @property
    def passed(self) -> bool:
        return self.outcome == Outcome.PASSED


class StepSpan(models.Model):
    """A stretch at one step of the schedule. One that was interrupted is followed by another."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    run = models.ForeignKey(Run, on_delete=models.PROTECT, related_name="spans")
    step = models.CharField(max_length=60)
    begun_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    begun_at = models.DateTimeField()
    ended_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    ended_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["begun_at", "id"]
        constraints = [models.UniqueConstraint(fields=["run"], condition=Q(ended_at__isnull=True), name="one_step_at_a_time")]


class Measured(models.Model):
    """`value` as typed, in `unit`; `cylinder` 0 where the channel has none; `step` blank for the run as a whole."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    step = models.CharField(max_length=60, blank=True)
    channel = models.CharField(max_length=60)
    cylinder = models.PositiveSmallIntegerField(default=0)
    value = models.CharField(max_length=40)
    unit = models.CharField(max_length=20)
    taken_at = models.DateTimeField()

    class Meta:
        abstract = True


class RunReading(Measured):
    """Typed on the tablet, or sent by a program."""

    run = models.ForeignKey(Run, on_delete=models.PROTECT, related_name="readings")
    taken_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    corrects = models.OneToOneField("self", null=True, on_delete=models.PROTECT, related_name="corrected_by")
    correction_reason = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["taken_at", "id"]
        indexes = [models.Index(fields=["run", "taken_at"], name="readings_of_run")]


class RunAnswer(models.Model):
    """What somebody saw; of several answers to one question the last counts."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    run = models.ForeignKey(Run, on_delete=models.PROTECT, related_name="answers")
    code = models.CharField(max_length=60)
    yes = models.BooleanField()
    words = models.CharField(max_length=400, blank=True)
    answered_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    answered_at = models.DateTimeField()

    class Meta:
        ordering = ["answered_at", "id"]


class RunLog(models.Model):
    """A log of the stand: its file as it came, and once it is read, how many lines and the hash over its readings."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    run = models.ForeignKey(Run, on_delete=models.PROTECT, related_name="logs")
    name = models.CharField(max_length=120)
    file = models.ForeignKey(StoredFile, on_delete=models.PROTECT, related_name="+")
    sent_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    sent_at = models.DateTimeField()
    job = models.OneToOneField(Job, null=True, on_delete=models.PROTECT, related_name="run_log")
    read_at = models.DateTimeField(null=True)
    lines = models.PositiveIntegerField(null=True)
    readings_sha256 = models.CharField(max_length=64, blank=True)

    class Meta:
        ordering = ["sent_at", "id"]


class LoggedReading(Measured):
    """A line of a log. Those that decide or are drawn are `shown`: the last, least and greatest of a step, and a few between."""

    log = models.ForeignKey(RunLog, on_delete=models.PROTECT, related_name="readings")
    line = models.PositiveIntegerField()
    shown = models.BooleanField()

    class Meta:
        ordering = ["line"]
        indexes = [models.Index(fields=["log", "shown", "taken_at"], name="log_readings_shown")]
        constraints = [models.UniqueConstraint(fields=["log", "line"], name="a_line_once_in_a_log")]
