"""A log of the stand: all of it or nothing, every mistake with its line, a long one by a worker."""

from datetime import UTC, datetime, timedelta

import pytest

from engines.testbench import services
from engines.testbench.errors import LogRefused
from engines.testbench.log_file import DRAWN, MOST_BYTES, read_lines
from engines.testbench.models import LoggedReading, RunLog
from engines.testbench.queries import runs
from engines.testbench.schedule import Schedule
from engines.testbench.services import keeping_logs
from engines.testbench.standing import Span
from shopfloor.jobs.performing import perform
from shopfloor.ledger.queries import verify
from tests.making_packs import small_pack, with_run
from tests.making_runs import Stand

pytestmark = pytest.mark.django_db
HEADING = "time,channel,cylinder,value,unit"


@pytest.fixture
def stand():
    """In the middle of full power, ten minutes after it was begun."""
    stand = Stand()
    stand.hold_all("pre-oil", "warm")
    stand.begin_step("full")
    stand.wait(10)
    return stand


def moment(stand, minutes_ago):
    return (stand.now - timedelta(minutes=minutes_ago)).isoformat()


def send(stand, *lines, heading=HEADING):
    data = "\n".join([heading, *lines, ""]).encode()
    return services.keep_log(run=stand.run, name="stand.csv", data=data, by=stand.by, at=stand.now)


def test_what_a_log_holds_counts_as_read(stand):
    log = send(
        stand,
        f"{moment(stand, 5)},oil pressure,,40,",
        f"{moment(stand, 1)},oil pressure,,4.5,bar",
        f"{moment(stand, 1)},cylinder temperature,2,200,°C",
    )
    assert (log.lines, log.job) == (3, None)
    lines = {(str(line.spot), line.value): line.verdict for line in stand.standing().standing.lines_at("full")}
    assert lines["oil pressure", "4.5 bar"] == "within limits", "4.5 bar is 65.3 psi"
    assert lines["cylinder temperature, cylinder 2", "200 °C"] == "within limits", "200 °C is 392 °F"


MISTAKES = {
    "{now},oil pressure,,forty,": "Line 3: “forty” is not a number",
    "{now},oil pressure,,40,°F": "Line 3: °F is a unit of temperature and psi one of pressure",
    "{now},tea,,40,": "Line 3: “tea” is no channel of this stand",
    "{now},cylinder temperature,3,400,": "Line 3: Cylinder temperature: name the cylinder, from 1 to 2.",
    "{now},oil pressure,1,40,": "Line 3: Oil pressure has no cylinder",
    "{now},oil pressure,one,40,": "Line 3: “one” is no cylinder",
    "noon,oil pressure,,40,": "Line 3: “noon” is no moment",
    "2026-03-02T10:15:00,oil pressure,,40,": "has no offset from UTC",
    "2026-01-01T00:00:00Z,oil pressure,,40,": "no step of the run was going",
    "2036-01-01T00:00:00Z,oil pressure,,40,": "had not come when the log was sent",
    "{now},oil pressure,,40": "Line 3: 4 fields where 5 are wanted",
    "{now},power,,88,": "stands in line 2 already",
}


NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)


@pytest.mark.parametrize(("line", "told"), MISTAKES.items(), ids=[each[:34] for each in MISTAKES.values()])
def test_a_mistake_is_told_with_its_line(line, told):
    text = "\n".join([HEADING, f"{NOON.isoformat()},power,,88,", line.format(now=NOON.isoformat())])
    spans = [Span("full", NOON - timedelta(minutes=10), None)]
    with pytest.raises(LogRefused) as refused:
        read_lines(text, Schedule(with_run(small_pack())), spans, NOON)
    assert len(refused.value.mistakes) == 1
    assert told in refused.value.mistakes[0]


def test_every_mistake_is_told_not_only_the_first(stand):
    with pytest.raises(LogRefused, match="Nothing was kept: 2 mistakes"):
        send(stand, "noon,oil pressure,,40,", f"{moment(stand, 1)},oil pressure,,40,", "night,oil pressure,,40,")
    assert not RunLog.objects.exists()
    assert not LoggedReading.objects.exists()


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"when,what\n", "the heading must be time,channel,cylinder,value,unit"),
        (HEADING.encode() + b"\n", "holds no reading"),
        (b"\xff\xfe\x00t", "no UTF-8 text"),
        (b"t" * (MOST_BYTES + 1), "send it in pieces"),
    ],
)
def test_a_file_that_is_no_log_is_refused(stand, data, told):
    with pytest.raises(LogRefused, match=told):
        services.keep_log(run=stand.run, name="x.csv", data=data, by=stand.by, at=stand.now)


def test_the_same_file_is_not_kept_twice(stand):
    line = f"{moment(stand, 1)},oil pressure,,60,"
    send(stand, line)
    with pytest.raises(LogRefused, match="sent for this run before"):
        send(stand, line)


def test_a_log_that_goes_beyond_an_abort_figure_ends_the_run(stand):
    send(stand, f"{moment(stand, 5)},cylinder temperature,1,501,", f"{moment(stand, 1)},cylinder temperature,1,400,")
    run = runs().get(pk=stand.run.pk)
    assert run.outcome == "failed", "it came back within, but it was beyond"
    assert "501 °F" in run.why


def long_log(stand, count, last="60"):
    began = stand.now - timedelta(minutes=9)
    lines = [f"{(began + timedelta(milliseconds=100 * n)).isoformat()},oil pressure,,{55 + n % 9},psi" for n in range(count)]
    return [*lines, f"{stand.now.isoformat()},oil pressure,,{last},psi"]


def test_a_long_log_is_read_by_a_worker_and_its_lines_verify(monkeypatch, django_capture_on_commit_callbacks):
    monkeypatch.setattr(keeping_logs, "AT_ONCE", 50)
    stand = Stand(moved=True)
    stand.hold_all("pre-oil", "warm")
    stand.begin_step("full")
    stand.wait(10)
    log = send(stand, *long_log(stand, 1200))
    assert (log.job.state, LoggedReading.objects.count()) == ("waiting", 0)
    assert "The log stand.csv is not read yet: wait for the worker." in stand.standing().standing.missing
    perform(log.job_id)
    log = RunLog.objects.select_related("job").get()
    assert (log.job.state, log.lines, log.job.progress_total) == ("done", 1201, 1201)
    assert LoggedReading.objects.filter(shown=True).count() <= DRAWN + 3
    assert stand.standing().standing.latest
    assert [fault for fault in verify() if "people." not in fault.sentence] == []


def test_an_altered_line_of_a_log_is_found(stand, as_owner):
    log = send(stand, f"{moment(stand, 1)},oil pressure,,60,")
    with as_owner():
        LoggedReading.objects.filter(log=log).update(value="61")
    assert any("runlog" in fault.sentence and "readings_now" in fault.sentence for fault in verify())


def test_a_long_log_with_a_mistake_says_so_and_another_may_be_sent(stand, monkeypatch):
    monkeypatch.setattr(keeping_logs, "AT_ONCE", 2)
    lines = long_log(stand, 3)
    log = send(stand, *lines[:2], "noon,oil pressure,,40,", lines[2])
    perform(log.job_id)
    log.job.refresh_from_db()
    assert log.job.state == "failed"
    assert "Line 4: “noon” is no moment" in log.job.reason
    assert stand.standing().standing.facts.waiting == []


def test_a_worker_that_comes_after_the_end_of_the_run_keeps_nothing(stand, monkeypatch):
    monkeypatch.setattr(keeping_logs, "AT_ONCE", 2)
    log = send(stand, *long_log(stand, 3))
    services.break_off(run=stand.run, reason="rain", engine_at_fault=False, by=stand.by, at=stand.now)
    perform(log.job_id)
    log.job.refresh_from_db()
    assert (log.job.state, LoggedReading.objects.count()) == ("failed", 0)
    assert "has ended" in log.job.reason
