"""Parts on clear wood: the best layout that can be found in the time given, and a bound on any better one."""

from shopapi.craft.layout.answers import answer_by_hand
from shopapi.craft.layout.cut_tree import cut_tree_of
from shopapi.craft.layout.figures import Figures, Leftover, Purchase, figures_of, leftovers_of, purchase_for
from shopapi.craft.layout.legality import Illegal, check
from shopapi.craft.layout.looks import looks_of
from shopapi.craft.layout.model import (
    Answer,
    CutTree,
    Flaw,
    GluedPanel,
    KeptTogether,
    LayoutError,
    Panel,
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
    "Figures",
    "Flaw",
    "GluedPanel",
    "Illegal",
    "KeptTogether",
    "LayoutError",
    "Leftover",
    "Panel",
    "Placement",
    "Problem",
    "Purchase",
    "Rules",
    "Stock",
    "Unplaced",
    "Wanted",
    "answer_by_hand",
    "check",
    "cut_tree_of",
    "figures_of",
    "leftovers_of",
    "looks_of",
    "purchase_for",
    "reason_for",
    "solve",
]
