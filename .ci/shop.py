"""The processes of docker-compose.yml by hand: its own roles, commands, settings and health checks, without containers.

Needs a PostgreSQL that PGHOST, PGPORT and PGUSER reach as a superuser, and redis-server. Its roles and database are made
anew and dropped at the end. Run by .venv/bin/python.
"""

import json
import os
import re
import secrets
import signal
import socket
import subprocess
import sys
import tempfile
import time
from contextlib import ExitStack, contextmanager
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import yaml

ROOT = Path(__file__).resolve().parents[1]
COMPOSE = yaml.safe_load((ROOT / "docker-compose.yml").read_text())
HOST = "journal.shop"
GIVEN = {
    "SECRET_KEY": secrets.token_urlsafe(50),
    "ALLOWED_HOSTS": HOST,
    "TIME_ZONE": "Europe/Paris",
    **{name: secrets.token_hex(16) for name in ("POSTGRES_PASSWORD", "OWNER_PASSWORD", "APP_PASSWORD", "BROKER_PASSWORD")},
}
POSTGRES = {"PGHOST": "127.0.0.1", "PGPORT": "5432", "PGUSER": "postgres", **os.environ}


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return str(probe.getsockname()[1])


WEB_PORT, BROKER_PORT = free_port(), free_port()


def filled(text):
    """As compose would fill it in, with the hosts of the containers on this one."""
    text = re.sub(r"\$\{(\w+):\?[^}]*\}", lambda match: GIVEN[match[1]], str(text)).replace("$$", "$")
    places = {
        "@database:5432": f"@{POSTGRES['PGHOST']}:{POSTGRES['PGPORT']}",
        "@broker:6379": f"@127.0.0.1:{BROKER_PORT}",
        "http://web:8000": f"http://127.0.0.1:{WEB_PORT}",
        "http://127.0.0.1:8000": f"http://127.0.0.1:{WEB_PORT}",
    }
    for place, here in places.items():
        text = text.replace(place, here)
    return text


def settings_of(service, home):
    told = {name: filled(value) for name, value in COMPOSE["services"][service]["environment"].items()}
    here = {"PORT": WEB_PORT, "MAIN_JOURNAL_DATA": str(home), "STORAGE_URL": f"file://{home}/files", "WEB_HOST": "127.0.0.1"}
    return {"PATH": os.environ["PATH"], "HOME": str(home), **told, **here}


def command_of(service):
    return [sys.executable if word == "python" else filled(word) for word in COMPOSE["services"][service]["command"]]


def manage(home, *arguments, service="migrate"):
    subprocess.run([sys.executable, "manage.py", *arguments], cwd=ROOT, env=settings_of(service, home), check=True)


@contextmanager
def database():
    drop_database()
    subprocess.run(["sh"], input=filled(COMPOSE["configs"]["roles"]["content"]), env={**POSTGRES, **GIVEN}, text=True, check=True)
    try:
        yield
    finally:
        drop_database()


def drop_database():
    for statement in ("DATABASE IF EXISTS journal WITH (FORCE)", "ROLE IF EXISTS journal_app", "ROLE IF EXISTS journal_owner"):
        told = ["psql", "--quiet", "--no-psqlrc", "--dbname", "postgres", "--command", f"DROP {statement}"]
        subprocess.run(told, env={**POSTGRES, "PGOPTIONS": "-c client_min_messages=warning"}, check=True)


@contextmanager
def running(name, command, environment):
    process = subprocess.Popen(command, cwd=ROOT, env=environment, stdin=subprocess.DEVNULL, start_new_session=True)
    try:
        yield process
        assert process.poll() is None, f"{name} stopped by itself with {process.returncode}"
    finally:
        process.terminate()
        try:
            process.wait(timeout=30)
        finally:
            kill_group(process.pid)


def kill_group(group):
    try:
        os.killpg(group, signal.SIGKILL)
    except ProcessLookupError:
        return


def healthy(service, home):
    """Its health check, as compose runs it, until it passes."""
    kind, *command = COMPOSE["services"][service]["healthcheck"]["test"]
    command = [filled(word).replace("find /tmp", f"find {home}") for word in command]
    command = ["sh", "-c", *command] if kind == "CMD-SHELL" else [sys.executable, *command[1:]]
    until = time.monotonic() + 60
    while (
        outcome := subprocess.run(command, cwd=ROOT, env=settings_of(service, home), capture_output=True, text=True)
    ).returncode:
        assert time.monotonic() < until, f"{service} is not well: {outcome.stdout}{outcome.stderr}"
        time.sleep(0.5)
    print(f"  {service} is well", flush=True)


def page(path, **headers):
    request = Request(f"http://127.0.0.1:{WEB_PORT}{path}", headers={"Host": HOST, **headers})
    try:
        with urlopen(request, timeout=20) as answer:
            return answer.status, answer.headers, answer.read().decode()
    except HTTPError as error:
        return error.code, error.headers, error.read().decode()


def check_pages():
    status, _, health = page("/health/")
    assert status == 200, health
    assert json.loads(health)["ok"], health
    status, headers, text = page("/people/sign-in/", **{"X-Forwarded-Proto": "https"})
    assert status == 200, status
    assert "csrfmiddlewaretoken" in text
    assert headers["Strict-Transport-Security"], "the browser is told to stay with HTTPS"
    sheet = re.search(r'href="(/static/[^"]+\.[0-9a-f]{12}\.css)"', text)[1]
    assert page(sheet, **{"X-Forwarded-Proto": "https"})[0] == 200, sheet
    assert page("/people/sign-in/", Host="elsewhere.example", **{"X-Forwarded-Proto": "https"})[0] == 400
    print("  health, the sign-in page and its hashed style sheet are served", flush=True)


def check_roles(home):
    """What the application's role must not be able to do, tried."""
    app = settings_of("web", home)["DATABASE_URL"]
    forbidden = (
        "DELETE FROM ledger_ledgerevent",
        "TRUNCATE people_rolegrant",
        "DROP TABLE people_person",
        "DROP TRIGGER append_only_rows ON ledger_ledgerevent",
        "ALTER TABLE ledger_ledgerevent DISABLE TRIGGER ALL",
        "SET session_replication_role = replica",
        "CREATE TABLE x (y int)",
    )
    for statement in forbidden:
        outcome = subprocess.run(["psql", "--no-psqlrc", app, "--command", statement], capture_output=True, text=True)
        assert outcome.returncode != 0, statement
        assert "permission denied" in outcome.stderr or "must be owner" in outcome.stderr, outcome.stderr
    print(f"  the application's role was refused {len(forbidden)} times", flush=True)


def check_nightly(home):
    """What the scheduler sends at night, sent now: a worker checks the ledger and says so in it."""
    send = "from shopfloor.celery import app; [app.send_task(due['task']) for due in app.conf.beat_schedule.values()]"
    subprocess.run([sys.executable, "-c", send], cwd=ROOT, env=settings_of("scheduler", home), check=True)
    ask = (
        "SELECT convert_from(body_bytes, 'UTF8')::json->'facts'->>'faults' FROM ledger_ledgerevent WHERE kind = 'ledger.checked'"
    )
    told = ["psql", "--no-psqlrc", "--tuples-only", "--no-align", settings_of("web", home)["DATABASE_URL"], "--command", ask]
    until = time.monotonic() + 30
    while not (found := subprocess.run(told, capture_output=True, text=True, check=True).stdout.strip()):
        assert time.monotonic() < until, "no worker checked the ledger"
        time.sleep(0.3)
    assert found == "0", f"{found} faults in the ledger"
    print("  the nightly check of the ledger found no fault", flush=True)


def main():
    with ExitStack() as shop:
        home = Path(shop.enter_context(tempfile.TemporaryDirectory()))
        shop.enter_context(database())
        broker = [filled(word) for word in COMPOSE["services"]["broker"]["command"]]
        broker[-1] += f" --logfile {home}/broker.log --port {BROKER_PORT} --bind 127.0.0.1 --dir {home} --loglevel warning"
        shop.enter_context(running("broker", broker, {"PATH": os.environ["PATH"], **GIVEN}))
        manage(home, "collectstatic", "--no-input", "--verbosity", "0")
        manage(home, *COMPOSE["services"]["migrate"]["command"][2:], "--verbosity", "0")
        check_roles(home)
        for service in ("web", "worker", "scheduler"):
            shop.enter_context(running(service, command_of(service), settings_of(service, home)))
        for service in ("web", "worker", "scheduler"):
            healthy(service, home)
        check_pages()
        check_nightly(home)
    print("  everything stopped", flush=True)


main()
