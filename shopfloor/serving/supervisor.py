"""Runs processes until told to stop: starts again what falls over, gives up in clear words, and leaves nothing behind."""

import signal
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager

from shopfloor.serving.processes import Process
from shopfloor.serving.watched import Watched

SIGNALS = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)
LOOK_SECONDS = 0.1
PATIENCE_SECONDS = 15.0


class GaveUp(Exception):
    """A process fell over too often."""

    def __init__(self, name: str, status: str) -> None:
        super().__init__(f"The {name} stopped again and again (last with {status}); all is stopped. The lines above say why.")


class Supervisor:
    """At most `most_falls` falls of one process within `span_s` seconds; the next one ends everything."""

    def __init__(
        self, processes: Sequence[Process], *, tell: Callable[[str], None], most_falls: int = 4, span_s: float = 60
    ) -> None:
        self.processes, self.tell = processes, tell
        self.most_falls, self.span_s = most_falls, span_s
        self.watched: list[Watched] = []
        self.asked = 0

    def run(self, *, environment: Mapping[str, str], is_ready: Callable[[], bool], announce: Callable[[], None]) -> None:
        """Returns when stopped by a signal; raises GaveUp. `announce` is called once, as soon as `is_ready`."""
        announced = False
        with self._listening():
            try:
                self.watched = [Watched(process, environment) for process in self.processes]
                while not self.asked:
                    self._look()
                    if not announced and is_ready():
                        announced = True
                        announce()
                    time.sleep(LOOK_SECONDS)
            finally:
                self._stop()

    def _look(self) -> None:
        for watched in self.watched:
            if watched.is_down():
                self._raise_up(watched)

    def _raise_up(self, watched: Watched) -> None:
        watched.sweep()
        falls = watched.note_fall(within_s=self.span_s)
        if falls > self.most_falls:
            raise GaveUp(watched.name, watched.status)
        self.tell(f"The {watched.name} stopped with {watched.status}; starting it again.")
        watched.start()

    def _stop(self) -> None:
        """In order first; by force what does not end in time, or at once when asked a second time."""
        for watched in self.watched:
            watched.terminate()
        asked, until = self.asked, time.monotonic() + PATIENCE_SECONDS
        while not all(watched.is_down() for watched in self.watched):
            if self.asked > asked or time.monotonic() > until:
                break
            time.sleep(LOOK_SECONDS / 2)
        for watched in self.watched:
            watched.sweep()

    @contextmanager
    def _listening(self) -> Iterator[None]:
        before = {number: signal.signal(number, self._ask) for number in SIGNALS}
        try:
            yield
        finally:
            for number, handler in before.items():
                signal.signal(number, handler)

    def _ask(self, number: int, frame: object) -> None:
        self.asked += 1
