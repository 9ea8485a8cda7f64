"""Who may do what on the stand: the shop and its auditor see runs, mechanic and inspector run engines."""

from django.core.files.uploadedfile import SimpleUploadedFile

from engines.testbench import services
from engines.testbench.services import Typed
from tests.making_people import PASSWORD
from tests.making_runs import Stand
from tests.permission_rows.row import Row

KEY = {"receipt_key": "01a21364-3dc3-7376-891b-2b3866c9f427"}
MISSING = "01a21364-3dc3-7376-891b-2b3866c9f427"
LOG = SimpleUploadedFile("x.csv", b"time,channel,cylinder,value,unit\nnoon,oil pressure,,40,\n", "text/csv")


def _run(*, going=False):
    stand = Stand()
    if going:
        stand.begin_step("pre-oil")
    return {"pk": stand.run.pk}


def _reading():
    stand = Stand()
    stand.begin_step("pre-oil")
    typed = [Typed("oil pressure", "30")]
    services.read(run=stand.run, step="pre-oil", typed=typed, by=stand.by, at=stand.now)
    return {"pk": stand.run.readings.get().pk}


OBJECTS = {
    "engine in test": lambda world: {"pk": Stand(begun=False).visit.pk},
    "missing engine in test": lambda world: {"pk": MISSING},
    "run": lambda world: _run(),
    "run at a step": lambda world: _run(going=True),
    "missing run": lambda world: {"pk": MISSING},
    "reading of a run": lambda world: _reading(),
    "missing reading of a run": lambda world: {"pk": MISSING},
}


def seeing(url, method, status, **rest):
    return Row(url, method, others=status, customer=403, no_role=403, anonymous=302, first_password=302, **rest)


def seeing_api(url, method, status, **rest):
    return Row(url, method, others=status, customer=403, no_role=403, anonymous=401, first_password=403, **rest)


def running(url, method, status, **rest):
    return Row(url, method, mechanic=status, inspector=status, others=403, anonymous=302, first_password=302, **rest)


def running_api(url, method, status, **rest):
    return Row(url, method, mechanic=status, inspector=status, others=403, anonymous=401, first_password=403, **rest)


BROKEN_OFF = {"reason": "a thunderstorm", "fault": "other"}
ROWS = [
    seeing("testbench:runs", "GET", 200, of="engine in test"),
    seeing("testbench:runs", "GET", 404, of="missing engine in test"),
    seeing("testbench:runs", "POST", 405, of="missing engine in test"),
    running("testbench:begin", "GET", 405, of="missing engine in test"),
    running("testbench:begin", "POST", 422, of="engine in test", data=KEY),
    running("testbench:begin", "POST", 302, of="engine in test", data=KEY | {"clear": "on"}),
    seeing("testbench:run", "GET", 200, of="run"),
    seeing("testbench:run", "GET", 404, of="missing run"),
    seeing("testbench:run", "POST", 405, of="missing run"),
    seeing("testbench:state", "GET", 200, of="run"),
    seeing("testbench:state", "POST", 405, of="missing run"),
    running("testbench:begin-step", "GET", 405, of="missing run"),
    running("testbench:begin-step", "POST", 302, of="run", data=KEY | {"step": "pre-oil"}),
    running("testbench:begin-step", "POST", 409, of="run", data=KEY | {"step": "full"}),
    running("testbench:end-step", "GET", 405, of="missing run"),
    running("testbench:end-step", "POST", 409, of="run", data=KEY | {"step": "pre-oil"}),
    running("testbench:read", "GET", 405, of="missing run"),
    running("testbench:read", "POST", 422, of="run at a step", data=KEY | {"step": "pre-oil"}),
    running("testbench:answer", "GET", 405, of="missing run"),
    running("testbench:answer", "POST", 422, of="run", data=KEY),
    running("testbench:log", "GET", 405, of="missing run"),
    running("testbench:log", "POST", 422, of="run", data=KEY | {"log": LOG}),
    running("testbench:end", "GET", 405, of="missing run"),
    running("testbench:end", "POST", 403, of="run", data=KEY | {"password": "not it", "seen": "x"}),
    running("testbench:end", "POST", 409, of="run", data=KEY | {"password": PASSWORD, "seen": "x"}),
    running("testbench:break-off", "GET", 405, of="missing run"),
    running("testbench:break-off", "POST", 422, of="run", data=KEY),
    running("testbench:break-off", "POST", 302, of="run", data=KEY | BROKEN_OFF),
    running("testbench:correct", "GET", 200, of="reading of a run"),
    running("testbench:correct", "GET", 404, of="missing reading of a run"),
    running("testbench:correct", "POST", 422, of="reading of a run", data=KEY),
    running("testbench:correct", "POST", 302, of="reading of a run", data=KEY | {"value": "31", "reason": "misread"}),
    seeing_api("testbench-api:run", "GET", 200, of="run"),
    seeing_api("testbench-api:run", "GET", 404, of="missing run"),
    seeing_api("testbench-api:run", "POST", 405, of="missing run"),
    seeing_api("testbench-api:readings", "GET", 200, of="run"),
    running_api("testbench-api:readings", "POST", 400, of="run"),
]
