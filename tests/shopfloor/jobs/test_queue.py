"""The brokers: what the address means, a folder that heals itself, and an answer in time from one that is dead."""

import socket
import time
from uuid import uuid4

import pytest
from django.core.exceptions import ImproperlyConfigured

from shopfloor.jobs import queue


def messages_in(folder):
    return sorted(folder.glob("*.jobs.msg"))


def read_one(app):
    with app.connection_for_read() as connection:
        return connection.default_channel.basic_get("jobs", no_ack=True)


def test_addresses():
    assert queue.broker_settings("filesystem:///srv/a%20b")["broker_transport_options"]["data_folder_in"] == "/srv/a b"
    assert queue.broker_settings("redis://h:1/0")["broker_url"] == "redis://h:1/0"
    assert queue.broker_settings("amqp://u:p@h//")["broker_url"] == "amqp://u:p@h//"


@pytest.mark.parametrize("url", ["filesystem://relative", "sqs://", "/srv/broker", "http://h"])
def test_other_addresses_are_refused(url):
    with pytest.raises(ImproperlyConfigured, match="CELERY_BROKER_URL must be"):
        queue.broker_settings(url)


def test_a_message_holds_the_id_and_nothing_else(tmp_path):
    job_id = uuid4()
    assert queue.send(job_id)
    (path,) = messages_in(tmp_path / "broker")
    arguments, named, _ = read_one(queue.app).payload
    assert (arguments, named) == ([str(job_id)], {})
    assert not path.exists()


def test_the_folder_comes_back_when_it_was_deleted(tmp_path):
    assert read_one(queue.app) is None
    assert queue.send(uuid4())
    assert len(messages_in(tmp_path / "broker")) == 1


def test_an_unreadable_message_is_dropped_and_the_next_one_read(tmp_path):
    queue.send(uuid4())
    (tmp_path / "broker" / "0-torn.jobs.msg").write_text('{"body": ')
    assert read_one(queue.app) is not None
    assert messages_in(tmp_path / "broker") == []


def test_a_living_broker_answers():
    assert queue.answers()


@pytest.mark.parametrize("scheme", ["redis", "amqp"])
def test_a_dead_broker_is_known_within_a_second(monkeypatch, scheme):
    with socket.socket() as silent:
        silent.bind(("127.0.0.1", 0))
        silent.listen()
        for port in (silent.getsockname()[1], 1):  # one accepts and says nothing, one refuses
            monkeypatch.setattr(queue, "app", queue.make_app(f"{scheme}://127.0.0.1:{port}//"))
            begun = time.monotonic()
            assert not queue.answers()
            assert time.monotonic() - begun < 1


@pytest.mark.parametrize("scheme", ["redis", "amqp"])
def test_sending_to_a_dead_broker_gives_up_soon_and_says_no(monkeypatch, scheme):
    monkeypatch.setattr(queue, "app", queue.make_app(f"{scheme}://127.0.0.1:1//"))
    begun = time.monotonic()
    assert not queue.send(uuid4())
    assert time.monotonic() - begun < 2
