"""Settings from the environment: odd values are refused by name."""

import re
from pathlib import Path

import pytest
from django.core.exceptions import ImproperlyConfigured

from shopapi import env


def test_flag(monkeypatch: pytest.MonkeyPatch) -> None:
    assert env.flag("X_FLAG", default=True) is True
    for text, value in (("1", True), ("Yes", True), ("off", False), ("", False)):
        monkeypatch.setenv("X_FLAG", text)
        assert env.flag("X_FLAG") is value
    monkeypatch.setenv("X_FLAG", "perhaps")
    with pytest.raises(ImproperlyConfigured, match="X_FLAG"):
        env.flag("X_FLAG")


def test_text_from_a_file(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "secret").write_text("hidden\n", "utf-8")
    monkeypatch.setenv("X_SECRET_FILE", str(tmp_path / "secret"))
    assert env.text("X_SECRET") == "hidden"


def test_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("X_WORDS", "a, b ,,c")
    assert env.words("X_WORDS") == ["a", "b", "c"]


def test_secret_is_made_once(tmp_path: Path) -> None:
    file = tmp_path / "new" / "key"
    first = env.kept_secret(file)
    assert len(first) > 50
    assert env.kept_secret(file) == first


def test_secret_without_a_folder_is_none(tmp_path: Path) -> None:
    (tmp_path / "in-the-way").write_text("", "utf-8")
    assert env.kept_secret(tmp_path / "in-the-way" / "key") == ""


def test_every_variable_stands_in_the_table() -> None:
    """DEVELOPERS.md lists each variable that the service reads, and no other."""
    root = Path(__file__).resolve().parent.parent
    read = {
        name
        for file in (root / "shopapi").rglob("*.py")
        for name in re.findall(r"env\.(?:text|flag|words|folder)\(\s*\"(FLITCHBOOK_\w+)\"", file.read_text("utf-8"))
    }
    told = set(re.findall(r"^\| `(FLITCHBOOK_\w+)`", (root / "DEVELOPERS.md").read_text("utf-8"), re.MULTILINE))
    assert read == told
    assert len(read) > 8
