"""One process under watch, in a group of its own, so that what it started ends with it."""

import ctypes
import os
import signal
import subprocess
import time
from collections.abc import Callable, Mapping
from contextlib import suppress

from shopfloor.serving.processes import Process

PR_SET_PDEATHSIG = 1


class Watched:
    def __init__(self, process: Process, environment: Mapping[str, str]) -> None:
        self.name, self.command, self.environment = process.name, process.command, dict(environment)
        self.falls: list[float] = []
        self.start()

    def start(self) -> None:
        self.running = subprocess.Popen(  # noqa: S603 - our own commands
            self.command,
            env=self.environment,
            stdin=subprocess.DEVNULL,
            start_new_session=True,
            preexec_fn=_end_with(os.getpid()),
        )

    def is_down(self) -> bool:
        return self.running.poll() is not None

    @property
    def status(self) -> str:
        code = self.running.returncode
        return signal.Signals(-code).name if code < 0 else f"status {code}"

    def note_fall(self, *, within_s: float) -> int:
        """How many falls there were lately, this one included."""
        now = time.monotonic()
        self.falls = [at for at in self.falls if at > now - within_s] + [now]
        return len(self.falls)

    def terminate(self) -> None:
        """Asks the process alone: it ends its own children in order."""
        if not self.is_down():
            self.running.terminate()

    def sweep(self) -> None:
        """End by force whatever is left of the group."""
        with suppress(ProcessLookupError):
            os.killpg(self.running.pid, signal.SIGKILL)
        self.running.wait()


def _end_with(parent: int) -> Callable[[], None]:
    """For the child to call: the kernel ends it when the parent is killed without a word."""
    libc = ctypes.CDLL(None)

    def ask() -> None:
        libc.prctl(PR_SET_PDEATHSIG, signal.SIGTERM)
        if os.getppid() != parent:
            os._exit(1)

    return ask
