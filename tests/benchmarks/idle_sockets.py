"""Eight idle browsers and a page: how much longer the page takes than with none.

Usage: python -m tests.benchmarks.idle_sockets [pages]
Some sockets say nothing, as a browser's spare connections do; some stop in the middle of a request. The floor: with them
the slowest of the pages takes less than twice the time of the slowest without, plus a fifth of a second for a busy machine.
"""

import socket
import sys
import tempfile
import time
from contextlib import ExitStack
from pathlib import Path

from tests.running_product import Product

IDLE = 8
PAGE = "/people/sign-in/"
HALF_A_REQUEST = b"GET / HTTP/1.1\r\nHost: localhost\r\n"


def times(product: Product, pages: int) -> list[float]:
    taken = []
    for _ in range(pages):
        begun = time.perf_counter()
        assert product.page(PAGE)[0] == 200
        taken.append(time.perf_counter() - begun)
    return sorted(taken)


def in_words(taken: list[float]) -> str:
    return f"median {taken[len(taken) // 2] * 1000:.1f} ms, slowest {taken[-1] * 1000:.1f} ms"


def main(pages: int) -> int:
    with tempfile.TemporaryDirectory() as home, ExitStack() as idle:
        product = Product(Path(home))
        idle.callback(product.end)
        times(product, 10)
        alone = times(product, pages)
        for number in range(IDLE):
            spare = idle.enter_context(socket.create_connection(("127.0.0.1", product.port)))
            spare.sendall(HALF_A_REQUEST if number % 2 else b"")
        beside = times(product, pages)
        product.process.terminate()
        product.process.wait(timeout=30)
    allowed = 2 * alone[-1] + 0.2
    print(f"no idle socket:  {in_words(alone)}")
    print(f"{IDLE} idle sockets:  {in_words(beside)}; {beside[len(beside) // 2] / alone[len(alone) // 2]:.2f} times the median")
    print(f"floor: slowest below {allowed * 1000:.0f} ms: {'held' if beside[-1] < allowed else 'MISSED'}")
    return 0 if beside[-1] < allowed else 1


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 100))
