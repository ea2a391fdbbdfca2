"""When the phone app is built anew, and what is said when it cannot be."""

import os
import subprocess
from pathlib import Path

import pytest

from shopapi.opening import phone_app


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name in ("src/a.ts", "index.html", "package.json", "package-lock.json", "dist/index.html"):
        file = tmp_path / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text("{}", "utf-8")
        os.utime(file, (1000, 1000))
    os.utime(tmp_path / "dist/index.html", (2000, 2000))
    return tmp_path


def test_fresh_build_is_kept(folder: Path) -> None:
    assert not phone_app.is_stale(folder)


@pytest.mark.parametrize("name", ["src/a.ts", "index.html", "package-lock.json"])
def test_newer_source_asks_for_a_build(folder: Path, name: str) -> None:
    os.utime(folder / name, (3000, 3000))
    assert phone_app.is_stale(folder)


def test_missing_build_is_stale(folder: Path) -> None:
    (folder / "dist/index.html").unlink()
    assert phone_app.is_stale(folder)


def test_missing_registry_is_said_in_one_line(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """npm itself, pointed at a registry where nobody listens."""
    (folder / "package.json").write_text('{"name":"x","version":"1.0.0","dependencies":{"left":"1.0.0"}}', "utf-8")
    lock = {
        "name": "x",
        "version": "1.0.0",
        "lockfileVersion": 3,
        "packages": {
            "": {"name": "x", "version": "1.0.0", "dependencies": {"left": "1.0.0"}},
            "node_modules/left": {"version": "1.0.0", "integrity": "sha512-AAAA"},
        },
    }
    import json

    (folder / "package-lock.json").write_text(json.dumps(lock), "utf-8")
    for name, value in {
        "npm_config_registry": "http://127.0.0.1:9/",
        "npm_config_fetch_retries": "0",
        "npm_config_cache": str(folder / "cache"),
    }.items():
        monkeypatch.setenv(name, value)
    with pytest.raises(phone_app.BuildError, match="registry does not answer") as refused:
        phone_app.build(lambda line: None, folder)
    assert "\n" not in str(refused.value)


def test_node_of_the_package_is_used_where_the_machine_has_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(phone_app.shutil, "which", lambda name, path=None: None)
    environment = phone_app.node_environment()
    monkeypatch.undo()
    node = phone_app.shutil.which("node", path=environment["PATH"].split(os.pathsep)[0])
    assert node
    said = subprocess.run([node, "--version"], capture_output=True, text=True, check=True).stdout
    assert tuple(int(part) for part in said.lstrip("v").split(".")[:2]) >= phone_app.LEAST_NODE
