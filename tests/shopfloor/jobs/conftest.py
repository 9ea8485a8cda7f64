"""A kind of job that the tests steer, and a person who asks for it."""

from datetime import UTC, datetime

import pytest

from shopfloor.jobs.kinds import JobKind, register_job_kind
from shopfloor.jobs.services import request_job
from shopfloor.people.models import Person

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


class Bench:
    """What the job does when worked on, and what was published."""

    def __init__(self):
        self.act = lambda payload, progress: {"echo": payload}
        self.published = []


@pytest.fixture
def bench():
    steered = Bench()

    def publish(job, result, at):
        steered.published.append((job.attempt, result))

    register_job_kind(JobKind("polish", lambda payload, progress: steered.act(payload, progress), publish, attempts=2))
    return steered


@pytest.fixture
def person(db):
    return Person.objects.create(username="mechanic1", name="First mechanic")


@pytest.fixture
def job(bench, person):
    return request_job(kind="polish", payload={"pin": "4"}, by=person, at=NOON)
