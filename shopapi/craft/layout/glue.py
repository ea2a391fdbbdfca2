"""Strips glued up to panels: which strips make which panel, and what a layout with panels is worth."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence, Set
from dataclasses import replace

from shopapi.craft.layout.cut_tree import cut_tree_of
from shopapi.craft.layout.model import Answer, GluedPanel, Panel, Placement, Problem, Unplaced
from shopapi.craft.layout.reasons import reason_for

COVER = "every layout, being the value of all parts and panels"


def glued_from(panel: Panel, strips: Sequence[Placement], fixed: Set[Placement]) -> list[GluedPanel]:
    """As many whole panels as these strips make, the strips trimmed so that each panel comes to its width exactly.

    fixed: strips that keep their width. A panel takes the fewest strips that cover it; those of one board stand side by
    side. Strips that are not needed are left out. Source: OWN.
    """
    pool = sorted(strips, key=lambda p: (p not in fixed, -p.width, p.stock, p.x, p.y))
    glued: list[GluedPanel] = []
    while pool and len(glued) < panel.count:
        chosen = _one_panel(panel, pool, fixed)
        if chosen is None:
            break
        used, trimmed = chosen
        pool = [strip for strip in pool if strip not in used]
        glued.append(GluedPanel(panel.id, tuple(trimmed)))
    return glued


def _one_panel(
    panel: Panel, pool: list[Placement], fixed: Set[Placement]
) -> tuple[list[Placement], list[Placement]] | None:
    """The strips for one panel, as they are and as trimmed; None if the pool makes none."""
    for count in panel.strip_counts:
        if count > len(pool):
            break
        loss = panel.loss_of(count)
        for start in range(len(pool) - count + 1):
            used = pool[start : start + count]
            over = sum(strip.width - loss for strip in used) - panel.width
            spare = sum(strip.width - panel.strip_least for strip in used if strip not in fixed)
            if 0 <= over <= spare:
                return used, _trimmed(used, over, fixed)
    return None


def _trimmed(strips: list[Placement], over: int, fixed: Set[Placement]) -> list[Placement]:
    """The strips made narrower by `over` in all, the widest first. [mm]"""
    widths = [strip.width for strip in strips]
    free = [n for n, strip in enumerate(strips) if strip not in fixed]
    for _ in range(over):
        widest = max(free, key=lambda n: widths[n])
        widths[widest] -= 1
    return [replace(strip, width=width) for strip, width in zip(strips, widths, strict=True)]


def panel_answer(problem: Problem, seconds: float, kept: Sequence[Placement], glued: Sequence[GluedPanel]) -> Answer:
    """An answer with panels: each is worth its value once it is whole; the bound is the value of everything."""
    worth = {w.id: w.value for w in problem.wanted}
    counts = Counter(p.wanted for p in kept)
    whole = Counter(one.panel for one in glued)
    unplaced = [
        Unplaced(w.id, w.quantity - counts[w.id], reason_for(problem, w))
        for w in problem.wanted
        if counts[w.id] < w.quantity
    ]
    for panel in problem.panels:
        if whole[panel.id] < panel.count:
            unplaced.append(Unplaced(panel.id, panel.count - whole[panel.id], reason_for(problem, panel)))
    values = sum(p.value * p.count for p in problem.panels) + sum(w.value * w.quantity for w in problem.wanted)
    value = sum(worth.get(p.wanted, 0) for p in kept) + sum(p.value * whole[p.id] for p in problem.panels)
    return Answer(
        value, values, value >= values, COVER, seconds, tuple(kept), cut_tree_of(problem, kept), tuple(unplaced),
        glued=tuple(glued),
    )  # fmt: skip
