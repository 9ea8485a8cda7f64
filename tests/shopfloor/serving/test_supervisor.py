"""The watch over the processes: nothing is left behind, whatever ends it, and what falls over is started again."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.worker.patience import wait_until

TOY_SHOP = Path(__file__).with_name("toy_shop.py")
pytestmark = pytest.mark.worker


class Shop:
    def __init__(self, folder: Path, *names: str, most_falls: int = 2) -> None:
        self.folder = folder
        self.process = subprocess.Popen(
            [sys.executable, TOY_SHOP, folder, str(most_falls), *names],
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            start_new_session=True,
        )

    def numbers(self, name: str) -> list[int]:
        return [int(path.name.rpartition("-")[2]) for path in self.folder.glob(f"{name}-*")]

    def wait_for(self, name: str, times: int = 1) -> None:
        wait_until(lambda: len(self.numbers(name)) >= times, f"{name} was started {times} times")

    def said(self) -> str:
        return self.process.communicate(timeout=20)[0]

    def living(self) -> list[int]:
        return [number for number in self.numbers("*") if _lives(number)]


def _lives(number: int) -> bool:
    try:
        return Path(f"/proc/{number}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except FileNotFoundError:
        return False


@pytest.mark.parametrize("ending", ["Ctrl-C", "SIGTERM", "SIGHUP", "SIGKILL"])
def test_nothing_is_left_behind(tmp_path, ending):
    shop = Shop(tmp_path, "steady", "steady")
    shop.wait_for("child", times=2)
    if ending == "Ctrl-C":
        os.killpg(shop.process.pid, signal.SIGINT)
    else:
        shop.process.send_signal(signal.Signals[ending])
    shop.process.wait(timeout=20)
    if ending == "SIGKILL":  # the kernel tells the processes; a child of a toy is no concern of the kernel's
        wait_until(lambda: not [number for number in shop.numbers("steady") if _lives(number)], "the processes have ended")
        for number in shop.living():
            os.kill(number, signal.SIGKILL)
    else:
        assert shop.living() == []
        assert shop.process.returncode == 0
        assert shop.said().splitlines()[-1] == "stopped"


def test_what_does_not_listen_is_ended_by_force(tmp_path):
    shop = Shop(tmp_path, "stubborn", "steady")
    shop.wait_for("stubborn")
    shop.wait_for("child")
    shop.process.terminate()
    shop.process.wait(timeout=20)
    assert shop.living() == []


def test_what_falls_over_is_started_again_and_its_child_does_not_stay(tmp_path):
    shop = Shop(tmp_path, "steady")
    shop.wait_for("child")
    (first,) = shop.numbers("steady")
    (child,) = shop.numbers("child")
    os.kill(first, signal.SIGKILL)
    shop.wait_for("child", times=2)
    assert not _lives(child)
    shop.process.terminate()
    assert "The steady stopped with SIGKILL; starting it again." in shop.said()


def test_what_falls_over_too_often_ends_everything_in_clear_words(tmp_path):
    shop = Shop(tmp_path, "steady", "falling", most_falls=2)
    said = shop.said()
    assert shop.process.returncode == 1
    assert len(shop.numbers("falling")) == 3
    assert "The falling stopped again and again (last with status 7); all is stopped." in said
    assert shop.living() == []
