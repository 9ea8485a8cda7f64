"""A newcomer's first minutes: `make demo`, its health, a sign-in, a judged sheet, its paper, and the end of it all.

Usage: python3 newcomer.py FOLDER      a fresh clone; the Python that `make` shall build on is the one that runs this
"""

import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
from http.cookiejar import CookieJar
from pathlib import Path
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, Request, build_opener
from uuid import uuid4

FOLDER = Path(sys.argv[1]).resolve()
DATA = FOLDER / "engines/scenario/data"


class Demo:
    """`make demo` as typed in a terminal: a process group of its own, Ctrl-C not ignored."""

    def __init__(self, port):
        self.address = f"http://127.0.0.1:{port}"
        self.log = FOLDER / "var/newcomer.log"
        self.log.parent.mkdir(exist_ok=True)
        begun = time.monotonic()
        with self.log.open("wb") as log:
            self.make = subprocess.Popen(
                ["make", "demo", f"PORT={port}", f"PYTHON={sys.executable}"],
                cwd=FOLDER,
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=log,
                start_new_session=True,
                preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
            )
        wait(lambda: "is open at" in self.said(), "the demo is open", 300, alive=lambda: self.make.poll() is None, said=self.said)
        self.took_s = time.monotonic() - begun

    def said(self):
        return self.log.read_text()

    def password(self):
        return re.search(r"each with the password\s+(\S+)", self.said())[1]

    def press_ctrl_c(self):
        os.killpg(self.make.pid, signal.SIGINT)
        self._gone("Ctrl-C")

    def end_the_parent(self):
        os.kill(self.make.pid, signal.SIGTERM)
        self._gone("SIGTERM to make")

    def _gone(self, how):
        self.make.wait(timeout=40)
        wait(lambda: not living(), f"nothing is left after {how}", 10, said=lambda: "\n".join(living()))
        print(f"  {how}: no process left")


class Visitor:
    def __init__(self, address):
        self.address, self.jar = address, CookieJar()
        self.opener = build_opener(HTTPCookieProcessor(self.jar))

    def get(self, path):
        with self.opener.open(self.address + path, timeout=30) as answer:
            return answer.read()

    def post(self, path, body, kind):
        token = next((cookie.value for cookie in self.jar if cookie.name == "csrftoken"), "")
        headers = {"Content-Type": kind, "X-CSRFToken": token}
        with self.opener.open(Request(self.address + path, data=body, headers=headers), timeout=60) as answer:
            return answer.geturl(), answer.read()

    def sign_in(self, name, password):
        page = self.get("/").decode()
        token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)[1]
        form = urlencode({"csrfmiddlewaretoken": token, "username": name, "password": password, "next": "/"}).encode()
        landed, page = self.post("/people/sign-in/", form, "application/x-www-form-urlencoded")
        assert landed == f"{self.address}/", landed
        assert b"sign-out" in page, page
        print(f"  signed in as {name}")

    def paper_of_a_sheet(self):
        files = {"limits": DATA / "f6-240-limits.csv", "readings": DATA / "f6-240-readings.csv"}
        _, answer = self.post("/api/v1/readings/sheets/", *multipart({"title": "A newcomer's sheet"}, files))
        sheet = json.loads(answer)
        print(f"  judged: {sheet['verdicts']}")
        _, answer = self.post(f"/api/v1/readings/sheets/{sheet['id']}/paper/", b"{}", "application/json")
        document = f"/api/v1/documents/{json.loads(answer)['document']}/"
        wait(
            lambda: json.loads(self.get(document))["state"] == "done",
            "the paper is made",
            60,
            said=lambda: str(self.get(document)),
        )
        paper = self.get(f"{document}download/")
        assert paper.startswith(b"%PDF-"), paper[:20]
        print(f"  a paper of {len(paper)} bytes")


def multipart(fields, files):
    edge = uuid4().hex
    parts = [f'name="{name}"\r\n\r\n{value}'.encode() for name, value in fields.items()]
    parts += [
        f'name="{name}"; filename="{path.name}"\r\nContent-Type: text/csv\r\n\r\n'.encode() + path.read_bytes()
        for name, path in files.items()
    ]
    body = b"".join(f"--{edge}\r\nContent-Disposition: form-data; ".encode() + part + b"\r\n" for part in parts)
    return body + f"--{edge}--\r\n".encode(), f"multipart/form-data; boundary={edge}"


def living():
    """Every process, but this one, that works inside the folder."""
    found = []
    for process in Path("/proc").glob("[0-9]*"):
        try:
            inside = Path(os.readlink(process / "cwd")).is_relative_to(FOLDER)
            command = (process / "cmdline").read_bytes().replace(b"\0", b" ").decode()
        except (OSError, ValueError):
            continue
        if inside and command and int(process.name) != os.getpid():
            found.append(f"{process.name} {command}")
    return found


def wait(look, what, within_s, alive=lambda: True, said=lambda: ""):
    until = time.monotonic() + within_s
    while not look():
        if not alive() or time.monotonic() > until:
            sys.exit(f"waited in vain until {what}:\n{said()}")
        time.sleep(0.1)


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def main():
    first = Demo(free_port())
    print(f"  open after {first.took_s:.1f} s, packages included")
    visitor = Visitor(first.address)
    health = json.loads(visitor.get("/health/"))
    assert health["ok"], health
    visitor.sign_in("mechanic1", first.password())
    visitor.paper_of_a_sheet()
    first.press_ctrl_c()
    second = Demo(free_port())
    second.end_the_parent()
    print(f"  the second start took {second.took_s:.1f} s")
    assert second.took_s < 10, "a second start is to take less than 10 s"


main()
