"""The phone app's own checks: types, unit tests, build, and types that match the service's schema."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.core.management import call_command
from openapi_spec_validator import validate

from shopapi.opening import phone_app

FRONTEND = Path(settings.FRONTEND_DIR)


@pytest.fixture(scope="session")
def packages() -> None:
    phone_app.install()


def run(*arguments: str) -> str:
    ran = phone_app.npm(*arguments)
    said = ran.stdout + ran.stderr
    assert ran.returncode == 0, said[-6000:]
    return said


@pytest.fixture(scope="session")
def schema(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("schema") / "schema.json"
    call_command("spectacular", file=str(file), format="openapi-json", validate=True, fail_on_warn=True)
    return file


def test_schema_is_valid_openapi(schema: Path) -> None:
    validate(json.loads(schema.read_text("utf-8")))


def test_types_are_made_from_the_schema(packages: None, schema: Path, tmp_path: Path) -> None:
    """Stale types: run `npm run schema` as DEVELOPERS.md says."""
    fresh = tmp_path / "schema.d.ts"
    run("exec", "--", "openapi-typescript", str(schema), "--output", str(fresh))
    kept = FRONTEND / "src" / "api" / "schema.d.ts"
    assert kept.read_text("utf-8") == fresh.read_text("utf-8"), "frontend/src/api/schema.d.ts is stale"


def test_types_check(packages: None) -> None:
    run("run", "check")


def test_unit_tests(packages: None) -> None:
    said = re.sub(r"\x1b\[[0-9;]*m", "", run("test"))
    passed = re.search(r"Tests\s+(\d+) passed", said)
    assert passed, said[-2000:]
    assert int(passed[1]) > 20


@pytest.fixture(scope="session")
def built(packages: None) -> Path:
    if phone_app.is_stale():
        phone_app.build(lambda line: None)
    return FRONTEND / "dist"


def test_build_has_shell_manifest_and_worker(built: Path) -> None:
    manifest = json.loads((built / "manifest.webmanifest").read_text("utf-8"))
    assert manifest["display"] == "standalone"
    sizes = {icon["sizes"] for icon in manifest["icons"]}
    assert {"192x192", "512x512"} <= sizes
    assert any("maskable" in icon.get("purpose", "") for icon in manifest["icons"])
    worker = (built / "sw.js").read_text("utf-8")
    assert "index.html" in worker
    assert '"sw.js"' not in worker
    for icon in manifest["icons"]:
        assert (built / icon["src"].lstrip("/")).is_file()


def test_shell_is_served(built: Path, client: Any) -> None:
    page = client.get("/")
    assert page.status_code == 200
    assert "frame-ancestors 'none'" in page["Content-Security-Policy"]
    worker = client.get("/sw.js")
    assert worker["Content-Type"].startswith("text/javascript")
    assert worker["Cache-Control"] == "no-cache"
    assert client.get("/../manage.py").status_code == 404
    assert client.get("/%2e%2e/manage.py").status_code == 404


def test_lock_file_names_no_addresses() -> None:
    assert '"resolved": "http' not in (FRONTEND / "package-lock.json").read_text("utf-8")
