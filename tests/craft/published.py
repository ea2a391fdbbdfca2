"""Reads the tables in tests/tables; each carries its own source, how it was got, and the tolerance it allows."""

import functools
import json
from pathlib import Path
from typing import Any

_TABLES = Path(__file__).parents[1] / "tables"


@functools.cache
def published(name: str) -> dict[str, Any]:
    """One table by file name without its ending."""
    return json.loads((_TABLES / f"{name}.json").read_text(encoding="utf-8"))
