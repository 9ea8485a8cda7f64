"""The broker of mode `try`: a folder, no server. Each message is a file, written beside and renamed into place."""

import logging
import os
import time
from contextlib import suppress
from pathlib import Path
from queue import Empty
from typing import Any
from uuid import uuid4

from kombu.transport import filesystem
from kombu.utils.json import dumps, loads

logger = logging.getLogger(__name__)


class Channel(filesystem.Channel):
    """Reads and writes whole messages only, and makes its folders again when somebody has deleted them."""

    def _put(self, queue: str, payload: dict[str, Any], **kwargs: Any) -> None:  # type: ignore[override]
        name = f"{time.time_ns()}-{uuid4().hex}"
        draft = Path(self.data_folder_out, f".{name}")
        draft.write_text(dumps(payload))
        draft.rename(draft.with_name(f"{name}.{queue}.msg"))

    def _get(self, queue: str, timeout: float | None = None) -> Any:
        for path in sorted(Path(self.data_folder_in).glob(f"*.{queue}.msg")):
            taken = path.with_name(f".{path.name}.{os.getpid()}")
            try:
                path.rename(taken)
                text = taken.read_text()
                taken.unlink()
                return loads(text)
            except FileNotFoundError:
                continue  # another worker was faster, or the folder was deleted
            except ValueError:
                logger.warning("A message in %s was not readable and is dropped; the sweep sends it again.", path.parent)
        raise Empty

    @property
    def data_folder_in(self) -> str:
        return str(_made(Path(self.transport_options["data_folder_in"])))

    @property
    def data_folder_out(self) -> str:
        return self.data_folder_in

    @property
    def control_folder(self) -> Path:
        return _made(Path(self.data_folder_in, "control"))


class Transport(filesystem.Transport):
    """Polls from Celery's event loop.

    Without it the pool's processes share one lock, and one of them killed while idle takes the lock with it: the worker
    would wait for ever.
    """

    Channel = Channel
    implements = filesystem.Transport.implements.extend(asynchronous=True)

    def register_with_event_loop(self, connection: Any, loop: Any) -> None:
        loop.call_repeatedly(self.polling_interval, self._poll)

    def _poll(self) -> None:
        assert self.cycle is not None
        with suppress(Empty):
            self.cycle.get(self._deliver)


def _made(folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    return folder
