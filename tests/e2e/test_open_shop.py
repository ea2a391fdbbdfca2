"""The first command: opens, says where, closes without a trace, and refuses in one line."""

import socket
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest

from shopapi.opening import phone_app
from tests.conftest import REPOSITORY
from tests.e2e.conftest import close_shop, free_port, open_shop


@pytest.fixture(scope="module", autouse=True)
def _built() -> None:
    if phone_app.is_stale():
        phone_app.build(lambda line: None)


def refused(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, str(REPOSITORY / "manage.py"), "open_shop", *arguments],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


def test_opens_and_closes_without_a_trace(tmp_path: Path) -> None:
    shop = open_shop(tmp_path / "data", "--bare")
    with socket.create_connection(("127.0.0.1", shop.port), timeout=5):
        pass
    children = _descendants(shop.process.pid)
    assert len(children) >= 2
    assert close_shop(shop) == 0
    time.sleep(0.2)
    assert not [pid for pid in children if _alive(pid)]
    secret = tmp_path / "data" / "secret_key"
    assert stat.S_IMODE(secret.stat().st_mode) == 0o600


def test_opens_again_with_what_was_there(tmp_path: Path) -> None:
    close_shop(open_shop(tmp_path, "--bare"))
    shop = open_shop(tmp_path)
    assert "My workshop" in shop.manage(
        "shell", "-c", "from shopapi.workshops.models import *; print(Workshop.objects.get())"
    )
    close_shop(shop)


def test_taken_port_is_refused(tmp_path: Path) -> None:
    port = free_port()
    with socket.socket() as other:
        other.bind(("0.0.0.0", port))  # noqa: S104
        other.listen()
        ran = refused("--data", str(tmp_path), "--bare", "--port", str(port))
    assert ran.returncode == 2
    assert f"Port {port} is taken" in ran.stderr
    assert len(ran.stderr.strip().splitlines()) == 1


@pytest.mark.parametrize("kind", ["file in the way", "no right to write"])
def test_folder_that_cannot_be_written_is_refused(kind: str, tmp_path: Path) -> None:
    folder = tmp_path / "data"
    if kind == "file in the way":
        folder.write_text("not a folder", "utf-8")
    else:
        folder = Path("/proc/flitchbook") if Path("/proc").is_dir() else tmp_path / "closed"
    ran = refused("--data", str(folder), "--bare", "--port", str(free_port()))
    assert ran.returncode == 2
    assert "--data" in ran.stderr
    assert len(ran.stderr.strip().splitlines()) == 1


def _descendants(pid: int) -> list[int]:
    found = subprocess.run(["ps", "-eo", "pid=,ppid="], capture_output=True, text=True, check=True).stdout
    parents = {int(a): int(b) for a, b in (line.split() for line in found.splitlines())}
    return [child for child in parents if _is_under(child, pid, parents)]


def _is_under(child: int, pid: int, parents: dict[int, int]) -> bool:
    while child in parents:
        child = parents[child]
        if child == pid:
            return True
    return False


def _alive(pid: int) -> bool:
    state = Path(f"/proc/{pid}/stat")
    return state.exists() and state.read_text("utf-8").rpartition(")")[2].split()[0] != "Z"
