"""The web server and the background worker as child processes that end with this one."""

import contextlib
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from types import FrameType

from django.conf import settings

from shopapi.opening import addresses

_PATIENCE_S = 10


class Stopped(Exception):  # noqa: N818 - not an error: somebody asked for it
    """Ctrl-C, or a request to end."""


class Children:
    """Starts, watches and ends the processes of one shop."""

    def __init__(self, *, port: int, threads: int) -> None:
        python = [sys.executable, "-u"]
        manage = str(settings.BASE_DIR / "manage.py")
        self.port = port
        self.commands = {
            "web server": [
                *python,
                "-m",
                "granian",
                "--interface=wsgi",
                "--host=0.0.0.0",
                f"--port={port}",
                f"--blocking-threads={threads}",
                "--workers=1",
                "--respawn-failed-workers",
                "--log-level=warning",
                "shopapi.wsgi:application",
            ],
            "background worker": [*python, manage, "db_worker", "--interval=0.3", "--no-startup-delay", "-v0"],
        }
        self.running: dict[str, subprocess.Popen[bytes]] = {}

    def __enter__(self) -> "Children":
        for name in ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK"):
            if hasattr(signal, name):
                signal.signal(getattr(signal, name), _stop)
        for name in self.commands:
            self._start(name)
        return self

    def __exit__(self, *_: object) -> None:
        for child in self.running.values():
            if child.poll() is None:
                child.terminate()
        deadline = time.monotonic() + _PATIENCE_S
        for child in self.running.values():
            try:
                child.wait(timeout=max(0.1, deadline - time.monotonic()))
            except subprocess.TimeoutExpired:
                child.kill()
                child.wait()
            self._sweep(child)

    def _start(self, name: str) -> None:
        # A session of its own: Ctrl-C in the terminal reaches us alone, and we end the children in order.
        self.running[name] = subprocess.Popen(
            self.commands[name],
            cwd=settings.BASE_DIR,
            env={**os.environ, "FLITCHBOOK_DATA": str(settings.DATA_DIR), "PYTHONPATH": str(settings.BASE_DIR)},
            stdin=subprocess.DEVNULL,
            start_new_session=True,
        )

    @staticmethod
    def _sweep(child: subprocess.Popen[bytes]) -> None:
        """Whatever the child itself started and left."""
        if hasattr(os, "killpg"):
            with contextlib.suppress(ProcessLookupError, PermissionError):
                os.killpg(child.pid, signal.SIGKILL)

    def wait_until_open(self) -> bool:
        """True once the server takes connections; False where it ended before."""
        while self.running["web server"].poll() is None:
            if addresses.answers(self.port):
                return True
            time.sleep(0.05)
        return False

    def watch(self, say: Callable[[str], None]) -> None:
        """Returns when the web server ends; a worker that ends is started again."""
        while self.running["web server"].poll() is None:
            if self.running["background worker"].poll() is not None:
                say("The background worker ended; it is started again.")
                self._start("background worker")
                time.sleep(2)
            time.sleep(0.3)


def _stop(number: int, frame: FrameType | None) -> None:
    raise Stopped
