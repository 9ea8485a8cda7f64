"""Work for a worker: a row with a lease and an attempt, and a sweep that loses nothing.

The row is the truth and the message only a hint. `services.request_job` writes the row in the caller's transaction and
sends the job's id to the broker after commit; a broker that is down, restarted or emptied only delays. A worker claims
the row, which gives it an attempt number and a lease; a heartbeat extends the lease while the work runs, with no
transaction open. Finishing is a compare-and-set on the attempt in the same transaction that publishes the result, so a
worker that was stopped, lost its lease and woke up again cannot publish. The sweep, a thread of every worker, takes back
leases that ran out, sends again what seems lost, and leaves the worker's own pulse for `/health/`.

The rooms above register what can be done (`kinds`). Jobs are means, not records: the kind's `publish` writes the event.
"""
