"""`manage.py serve`: the real web server and worker, watched; idle browsers delay nobody; nothing is left behind."""

import os
import re
import signal
import socket
import time
from contextlib import ExitStack
from pathlib import Path

import pytest

from tests.running_product import Product
from tests.worker.patience import wait_until

pytestmark = [pytest.mark.worker, pytest.mark.sqlite]


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
