"""`manage.py serve`: the real web server and worker, watched; idle browsers delay nobody; nothing is left behind."""

import os
import re
import signal
import socket
import subprocess
import sys
import time
from contextlib import ExitStack
from pathlib import Path
from urllib.request import urlopen

import pytest

from tests.worker.brokers import free_port
from tests.worker.patience import wait_until

ROOT = Path(__file__).resolve().parents[3]
pytestmark = [pytest.mark.worker, pytest.mark.sqlite]


class Product:
    """The product with data of its own, as `make demo` starts it."""

    def __init__(self, home: Path) -> None:
        self.port, self.log = free_port(), home / "serve.log"
        kept = {name: value for name, value in os.environ.items() if name not in ("DATABASE_URL", "CELERY_BROKER_URL")}
        self.environment = {**kept, "MAIN_JOURNAL_DATA": str(home), "PORT": str(self.port), "WEB_PROCESSES": "2"}
        self.manage("migrate", "--verbosity", "0")
        with self.log.open("wb") as log:
            self.process = subprocess.Popen(
                [sys.executable, "manage.py", "serve"],
                cwd=ROOT,
                env=self.environment,
                stdout=log,
                stderr=log,
                start_new_session=True,
            )
        wait_until(lambda: "is open at" in self.said(), "the product is open", within_s=40)

    def manage(self, *arguments: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "manage.py", *arguments], cwd=ROOT, env=self.environment, capture_output=True, text=True, check=False
        )

    def said(self) -> str:
        return self.log.read_text()

    def page(self, path: str) -> tuple[int, str]:
        with urlopen(f"http://127.0.0.1:{self.port}{path}", timeout=10) as answer:
            return answer.status, answer.read().decode()

    def processes(self) -> dict[int, str]:
        """Every process that was given our data folder, by number: web and worker with what they started."""
        mark = f"MAIN_JOURNAL_DATA={self.environment['MAIN_JOURNAL_DATA']}".encode()
        found = {}
        for folder in Path("/proc").glob("[0-9]*"):
            try:
                if mark in (folder / "environ").read_bytes().split(b"\0"):
                    found[int(folder.name)] = (folder / "cmdline").read_bytes().replace(b"\0", b" ").decode()
            except OSError:
                continue
        return found

    def end(self) -> None:
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()


@pytest.fixture(scope="module")
def product(tmp_path_factory):
    product = Product(tmp_path_factory.mktemp("product"))
    yield product
    product.end()


def test_the_shop_is_well_and_the_sign_in_page_is_served(product):
    assert '"ok": true' in product.page("/health/")[1]
    status, page = product.page("/")
    assert status == 200
    assert "csrfmiddlewaretoken" in page
    assert product.page(re.search(r'href="(/static/[^"]+\.css)"', page)[1])[0] == 200


def test_it_listens_on_this_computer_only(product):
    listening = Path("/proc/net/tcp").read_text().split("\n")[1:]
    addresses = {line.split()[1].split(":")[0] for line in listening if f":{product.port:04X} " in line and " 0A " in line}
    assert addresses == {"0100007F"}


def test_eight_idle_browsers_delay_nobody(product):
    with ExitStack() as idle:
        for _ in range(8):
            idle.enter_context(socket.create_connection(("127.0.0.1", product.port)))
        begun = time.monotonic()
        for _ in range(10):
            assert product.page("/people/sign-in/")[0] == 200
        assert time.monotonic() - begun < 5


def test_a_second_one_on_the_same_port_is_told_so(product):
    second = product.manage("serve")
    assert second.returncode == 1
    assert f"Port {product.port} is in use. Choose another one: make demo PORT={product.port + 1}" in second.stderr


def test_a_killed_web_process_is_replaced(product):
    web = max(_webs(product))
    os.kill(web, signal.SIGKILL)
    wait_until(lambda: web not in _webs(product) and len(_webs(product)) == 3, "the web process is replaced")
    wait_until(lambda: len(os.listdir(f"/proc/{max(_webs(product))}/task")) > 1, "the new one has its threads")
    for _ in range(5):
        assert product.page("/people/sign-in/")[0] == 200


def _webs(product):
    return [number for number, command in product.processes().items() if "granian" in command]


def test_at_the_end_nothing_is_left(product):
    assert len(product.processes()) >= 5, "the watch, the web server and its two processes, the worker and its process"
    os.killpg(product.process.pid, signal.SIGINT)
    assert product.process.wait(timeout=30) == 0
    assert product.said().rstrip().endswith("Stopped.")
    assert product.processes() == {}
