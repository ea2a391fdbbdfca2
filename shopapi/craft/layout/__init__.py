"""Parts on clear wood: the best layout that can be found in the time given, and a bound on any better one."""

from shopapi.craft.layout.model import (
    Answer,
    CutTree,
    Flaw,
    LayoutError,
    Placement,
    Problem,
    Rules,
    Stock,
    Unplaced,
    Wanted,
)
from shopapi.craft.layout.reasons import reason_for
from shopapi.craft.layout.solve import solve

__all__ = [
    "Answer",
    "CutTree",
    "Flaw",
    "LayoutError",
    "Placement",
    "Problem",
    "Rules",
    "Stock",
    "Unplaced",
    "Wanted",
    "reason_for",
    "solve",
]
