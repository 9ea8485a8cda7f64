"""Real workers on a real broker, killed, stopped and cut off. Every job ends once: one document, one event.

`WORKER_TEST_BROKER` chooses the broker: `folder` (the default), `redis` or `rabbitmq`; servers are private to the test.
"""
