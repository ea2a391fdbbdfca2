"""Every public craft function says where its numbers come from, by a key of the one bibliography."""

import importlib
import inspect
import pkgutil
import re
from pathlib import Path
from types import FunctionType

import pytest

import shopapi.craft
from shopapi.craft.sources import SOURCES, source

# Geometry, photographs and search: what their package gives out is public, the rest is for themselves.
PUBLIC_BY_PACKAGE = ("layout", "rectify", "marks", "clear_area", "suggest")
SOURCE_LINE = re.compile(r"Source:\s+([A-Z][A-Z0-9-]+)")


def public_functions():
    for info in pkgutil.walk_packages(shopapi.craft.__path__, "shopapi.craft."):
        package = info.name.split(".")[2]
        given_out = None
        if package in PUBLIC_BY_PACKAGE:
            given_out = importlib.import_module(f"shopapi.craft.{package}").__all__
        module = importlib.import_module(info.name)
        for name, value in vars(module).items():
            is_public = not name.startswith("_") if given_out is None else name in given_out
            if isinstance(value, FunctionType) and value.__module__ == info.name and is_public:
                yield pytest.param(value, id=f"{info.name.removeprefix('shopapi.craft.')}.{name}")


@pytest.mark.parametrize("function", list(public_functions()))
def test_source_line_names_a_known_source(function):
    doc = inspect.getdoc(function) or ""
    cited = SOURCE_LINE.findall(doc)
    assert cited, "no line `Source: KEY, place in it`"
    assert set(cited) <= set(SOURCES)


@pytest.mark.parametrize("function", list(public_functions()))
def test_every_argument_is_told_about(function):
    doc = inspect.getdoc(function) or ""
    missing = [name for name in inspect.signature(function).parameters if not re.search(rf"\b{name}\b", doc)]
    # Small doors for craft itself (limits, cautions) take only what their one line says.
    if len(doc.splitlines()) > 6:
        assert not missing or "as for" in doc, missing


def test_a_function_without_a_source_would_fail():
    def bare() -> None:
        """Gives nothing."""

    assert not SOURCE_LINE.findall(inspect.getdoc(bare))
    assert len(list(public_functions())) > 40


def test_every_key_in_the_text_of_craft_is_in_the_bibliography():
    for path in Path(shopapi.craft.__file__).parent.rglob("*.py"):
        for key in SOURCE_LINE.findall(path.read_text(encoding="utf-8")):
            assert key in SOURCES, f"{path.name}: {key}"


def test_bibliography():
    assert all(entry.title and entry.key == key for key, entry in SOURCES.items())
    assert all(entry.note for entry in SOURCES.values() if entry.standing == "memory")
    with pytest.raises(KeyError, match="WOOD-HANDBOOK"):
        source("NOWHERE")
