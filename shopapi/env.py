"""Typed readers of environment variables; an odd value is refused with its name."""

import os
import secrets
from pathlib import Path

from django.core.exceptions import ImproperlyConfigured

_TRUE, _FALSE = {"1", "true", "yes", "on"}, {"0", "false", "no", "off", ""}


def text(name: str, default: str = "") -> str:
    """The variable, or the content of the file that NAME_FILE points to (secrets are often mounted so)."""
    if file := os.environ.get(f"{name}_FILE"):
        return Path(file).read_text(encoding="utf-8").strip()
    return os.environ.get(name, default).strip()


def flag(name: str, *, default: bool = False) -> bool:
    raw = os.environ.get(name)
    if raw is None:
        return default
    if raw.strip().lower() in _TRUE:
        return True
    if raw.strip().lower() in _FALSE:
        return False
    raise ImproperlyConfigured(f"{name} must be 1 or 0, not {raw!r}.")


def words(name: str, default: str = "") -> list[str]:
    return [word.strip() for word in text(name, default).split(",") if word.strip()]


def folder(name: str, default: Path) -> Path:
    return Path(text(name) or default).expanduser().resolve()


def kept_secret(file: Path) -> str:
    """A secret made once and kept in FILE, readable by its owner only; empty when the folder cannot be written."""
    secret = secrets.token_urlsafe(50)
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        if not file.exists():
            handle = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
            with os.fdopen(handle, "w", encoding="ascii") as out:
                out.write(secret)
        return file.read_text(encoding="ascii").strip()
    except OSError:
        # Another process of this shop may have been first; else the folder cannot be written.
        return file.read_text(encoding="ascii").strip() if file.is_file() else ""
