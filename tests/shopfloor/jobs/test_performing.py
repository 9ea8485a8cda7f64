"""One job from claim to end: published, refused, broken off or taken over."""

import time

import pytest

from shopfloor.jobs import services
from shopfloor.jobs.kinds import JobRefused
from shopfloor.jobs.models import Job
from shopfloor.jobs.performing import perform


def after(job):
    perform(job.pk)
    job.refresh_from_db()
    return job


def test_work_is_published(job, bench):
    assert after(job).state == "done"
    assert bench.published == [(1, {"echo": {"pin": "4"}})]


def test_a_message_that_comes_twice_does_nothing_the_second_time(job, bench):
    after(job)
    assert after(job).attempt == 1
    assert len(bench.published) == 1


def test_a_refusal_fails_at_once_with_its_reason(job, bench):
    def refuse(payload, progress):
        raise JobRefused("Pin 4 is not in the table. Add it first.")

    bench.act = refuse
    assert (after(job).state, job.reason, job.attempt) == ("failed", "Pin 4 is not in the table. Add it first.", 1)
    assert bench.published == []


def test_an_unforeseen_error_waits_for_another_attempt_and_names_itself(job, bench):
    bench.act = lambda payload, progress: 1 / 0
    assert after(job).state == "waiting"
    assert after(job).state == "failed"
    assert "ZeroDivisionError" in job.reason
    assert "Try again" in job.reason


def test_progress_is_written_down(job, bench):
    seen = []

    def work(payload, progress):
        progress(2, 5)
        seen.append(Job.objects.get(pk=job.pk))
        return {}

    bench.act = work
    after(job)
    assert (seen[0].progress_done, seen[0].progress_total) == (2, 5)


def test_progress_stops_a_worker_that_was_taken_over(job, bench):
    reached = []

    def work(payload, progress):
        Job.objects.filter(pk=job.pk).update(attempt=2)  # another worker holds it now
        progress(1, 2)
        reached.append("the end")
        return {}

    bench.act = work
    assert after(job).state == "running"
    assert (reached, bench.published) == ([], [])


def test_a_publication_that_breaks_is_another_attempt(job, bench):
    bench.published = None
    assert after(job).state == "waiting"
    bench.published = []
    assert after(job).state == "done"
    assert [attempt for attempt, _ in bench.published] == [2]


def test_an_unknown_kind_says_what_to_do(job):
    Job.objects.filter(pk=job.pk).update(kind="unheard-of", attempts_allowed=1)
    assert (after(job).state, "UnknownJobKind" in job.reason) == ("failed", True)


@pytest.mark.django_db(transaction=True)
def test_the_lease_is_extended_while_the_work_runs(job, bench, settings):
    settings.JOB_LEASE_SECONDS = 1
    leases = []

    def work(payload, progress):
        for _ in range(2):
            leases.append(Job.objects.get(pk=job.pk).lease_until)
            time.sleep(0.6)
        return {}

    bench.act = work
    assert after(job).state == "done"
    assert leases[1] > leases[0]
    assert services.sweep(at=job.finished_at) == 0
