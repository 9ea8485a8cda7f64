"""What a shop's computer does to a worker in the middle of a job."""

import signal
import time

import pytest

from shopfloor.jobs.models import Job
from tests.worker.patience import wait_until

pytestmark = pytest.mark.worker


def test_a_paper_is_made_and_the_shop_is_well(shop, client):
    worker = shop.hire()
    paper = shop.ask("plain")
    shop.go("plain")
    assert shop.ended_once(paper).attempt == 1
    health = client.get("/health/")
    assert (health.status_code, health.json()["worker"]["ok"], health.json()["broker"]["ok"]) == (200, True, True)
    assert worker.stop_in_order() == 0
    assert not client.get("/health/").json()["worker"]["ok"]


def test_the_pools_process_is_killed_while_idle(shop):
    worker = shop.hire()
    idle = worker.children()
    worker.kill_child()
    wait_until(lambda: worker.children() and worker.children() != idle, "the process is replaced")
    paper = shop.ask("after-idle")
    shop.go("after-idle")
    assert shop.ended_once(paper).attempt == 1


def test_the_pools_process_is_killed_in_the_middle(shop):
    worker = shop.hire()
    paper = shop.ask("child")
    shop.wait_begun("child")
    worker.kill_child()
    shop.wait_begun("child", times=2)
    shop.go("child")
    assert shop.ended_once(paper).attempt == 2


def test_the_whole_worker_is_killed_in_the_middle(shop):
    first = shop.hire("first")
    paper = shop.ask("whole")
    shop.wait_begun("whole")
    first.signal_all(signal.SIGKILL)
    shop.hire("second")
    shop.wait_begun("whole", times=2)
    shop.go("whole")
    assert shop.ended_once(paper).attempt == 2


def test_a_worker_stopped_past_its_lease_wakes_and_publishes_nothing(shop):
    stalled = shop.hire("stalled")
    paper = shop.ask("stalled")
    shop.wait_begun("stalled")
    _just_after_a_heartbeat(paper.job)
    stalled.signal_all(signal.SIGSTOP)
    shop.hire("other")
    shop.wait_begun("stalled", times=2)
    shop.go("stalled")
    shop.ended_once(paper)
    stalled.signal_all(signal.SIGCONT)
    wait_until(lambda: "its result is dropped" in stalled.said(), "the stalled worker notices")
    assert shop.ended_once(paper).attempt == 2


def test_a_worker_killed_on_every_attempt_leaves_a_failure_with_its_reason(shop):
    worker = shop.hire()
    paper = shop.ask("doomed")
    for attempt in (1, 2, 3):
        shop.wait_begun("doomed", times=attempt)
        worker.kill_child()
    wait_until(lambda: Job.objects.filter(pk=paper.job_id, state="failed").exists(), "the job has failed")
    assert Job.objects.get(pk=paper.job_id).reason.startswith("The worker stopped in the middle of this, 3 times.")


def test_the_broker_loses_everything_in_the_middle(shop):
    shop.hire()
    running = shop.ask("running")
    shop.wait_begun("running")
    waiting = [shop.ask(f"waiting-{number}") for number in range(3)]
    shop.broker.lose_everything()
    begun = time.monotonic()
    meanwhile = shop.ask("meanwhile")
    assert time.monotonic() - begun < 6, "asking must not wait for a broker that is down"
    shop.go("running", "meanwhile", *(paper.subject for paper in waiting))
    shop.broker.come_back()
    afterwards = shop.ask("afterwards")
    shop.go("afterwards")
    for paper in (running, *waiting, meanwhile, afterwards):
        assert shop.ended_once(paper).attempt == 1


def _just_after_a_heartbeat(job):
    """A worker stopped inside a write would hold SQLite's only lock; between two heartbeats it holds none."""
    seen = Job.objects.get(pk=job.pk).heartbeat_at
    wait_until(lambda: Job.objects.get(pk=job.pk).heartbeat_at != seen, "a heartbeat")
    time.sleep(0.1)
