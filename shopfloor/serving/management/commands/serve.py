"""manage.py serve: the whole product under one watch, or one of its processes for a host that watches by itself."""

import os
import socket
import time

from django.conf import settings
from django.core import checks
from django.core.management.base import BaseCommand, CommandError, CommandParser

from shopfloor.serving import health, processes
from shopfloor.serving.supervisor import GaveUp, Supervisor

ALONE = {"web": lambda: processes.web(settings.WEB_PORT), "worker": processes.worker, "scheduler": processes.scheduler}


class Command(BaseCommand):
    help = "Run web and worker until Ctrl-C. With `web`, `worker` or `scheduler`: become that one process."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("process", nargs="?", choices=sorted(ALONE))

    def handle(self, *, process: str | None, **options: object) -> None:
        if not settings.TRY_MODE:
            self.check(databases=["default"], include_deployment_checks=True, fail_level=checks.WARNING)
        if process:
            alone = ALONE[process]()
            os.execve(alone.command[0], alone.command, processes.environment())  # noqa: S606
        self._check_port(settings.WEB_PORT)
        self._run(f"http://127.0.0.1:{settings.WEB_PORT}")

    def _run(self, address: str) -> None:
        supervisor = Supervisor([processes.web(settings.WEB_PORT), processes.worker()], tell=self._tell)
        try:
            supervisor.run(
                environment=processes.environment(),
                is_ready=Readiness(address),
                announce=lambda: self._tell(f"Main Journal is open at {address}/\nCtrl-C stops it."),
            )
        except GaveUp as fault:
            raise CommandError(str(fault)) from None
        self._tell("Stopped.")

    def _tell(self, sentence: str) -> None:
        self.stdout.write(sentence)
        self.stdout.flush()

    def _check_port(self, port: int) -> None:
        """Tried without sharing: the web server would share a port, and half of the answers would be another's."""
        with socket.socket() as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((settings.WEB_HOST, port))
            except OSError:
                raise CommandError(f"Port {port} is in use. Choose another one: make demo PORT={port + 1}") from None


class Readiness:
    """Whether every part of the shop is well; asked twice a second at most."""

    def __init__(self, address: str) -> None:
        self.address, self.next_look = address, 0.0

    def __call__(self) -> bool:
        if time.monotonic() < self.next_look:
            return False
        well = not health.unwell(health.ask(self.address, settings.ALLOWED_HOSTS[0], within_s=1), [])
        self.next_look = time.monotonic() + 0.5
        return well
