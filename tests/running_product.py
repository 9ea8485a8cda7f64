"""The product as a newcomer runs it, with data of its own: `manage.py serve` on a port that is free."""

import os
import subprocess
import sys
from pathlib import Path
from urllib.request import urlopen

from tests.worker.brokers import free_port
from tests.worker.patience import wait_until

ROOT = Path(__file__).resolve().parents[1]


class Product:
    def __init__(self, home: Path, *, scenario: bool = False) -> None:
        self.port, self.log = free_port(), home / "serve.log"
        self.address = f"http://127.0.0.1:{self.port}"
        kept = {name: value for name, value in os.environ.items() if name not in ("DATABASE_URL", "CELERY_BROKER_URL")}
        self.environment = {**kept, "MAIN_JOURNAL_DATA": str(home), "PORT": str(self.port), "WEB_PROCESSES": "2"}
        self.manage("migrate", "--verbosity", "0")
        if scenario:
            assert self.manage("load_scenario").returncode == 0
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
        with urlopen(self.address + path, timeout=10) as answer:
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
