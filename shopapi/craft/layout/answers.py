"""Answers made from placements: by the search, and by hand."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from shopapi.craft.layout.cut_tree import cut_tree_of
from shopapi.craft.layout.glue import glued_from, panel_answer
from shopapi.craft.layout.legality import Say, check
from shopapi.craft.layout.looks import looks_of
from shopapi.craft.layout.model import Answer, CutTree, LayoutError, Placement, Problem, Unplaced
from shopapi.craft.layout.reasons import millimetres, reason_for
from shopapi.craft.layout.together import kept_together


def answer_from(
    problem: Problem,
    seconds: float,
    placements: Sequence[Placement],
    cuts: dict[str, CutTree],
    proved_bound: float | None,
    covers: str,
) -> Answer:
    """An answer with what its placements are worth and what they leave wanting; values are whole, and so is a bound.

    Source: OWN, sums.
    """
    wanted = {w.id: w for w in problem.wanted}
    missing = {w.id: w.quantity for w in problem.wanted}
    for p in placements:
        missing[p.wanted] -= 1
    value = sum(wanted[p.wanted].value for p in placements)
    bound = None if proved_bound is None else max(value, math.floor(proved_bound + 1e-6))
    return Answer(
        value=value,
        bound=bound,
        proved_best=bound is not None and value >= bound,
        bound_covers=covers,
        seconds=seconds,
        placements=tuple(placements),
        cuts=cuts,
        unplaced=tuple(
            Unplaced(name, count, reason_for(problem, wanted[name])) for name, count in missing.items() if count > 0
        ),
    )


MOST_SPARED = 1000  # pieces of a layout whose cuts are worked out once more


def with_sparing_cuts(problem: Problem, answer: Answer) -> Answer:
    """The same layout with cuts that leave longer and wider offcuts, where the rules allow some choice.

    Layouts of very many pieces keep their cuts. Source: OWN, `sparing_tree`.
    """
    if problem.rules.stages != 3 or problem.rules.first_cut != "crosscut" or len(answer.placements) > MOST_SPARED:
        return answer
    return replace(answer, cuts=cut_tree_of(problem, answer.placements))


def answer_by_hand(problem: Problem, placements: Sequence[Placement], say: Say = millimetres) -> Answer:
    """The answer that these placements make: value, cut trees, what they leave wanting; no bound is known.

    Raises LayoutError, in a maker's words, when a piece breaks a rule (`check` names every one).
    Source: OWN, from the definition.
    """
    for illegal in check(problem, placements, say):
        raise LayoutError(f"Board {illegal.stock}, the piece of {illegal.wanted}: {illegal.words}")
    if problem.panels:
        glued = []
        for panel in problem.panels:
            strips = {(p.stock, p.x, p.y): p for p in placements if p.wanted == panel.id}
            for one in glued_from(panel, list(strips.values()), frozenset()):
                # by hand a panel may come out a little wide: it is planed to width
                glued.append(replace(one, strips=tuple(strips[p.stock, p.x, p.y] for p in one.strips)))
        return replace(panel_answer(problem, 0.0, placements, glued), bound=None, proved_best=False, bound_covers="")
    return answer_from(problem, 0.0, placements, cut_tree_of(problem, placements), None, "")


def better_known(problem: Problem, answer: Answer, known: Sequence[Placement]) -> Answer:
    """The answer, or a layout known before where that is worth more, or places more for the same worth.

    A layout that breaks a rule or a pin by now does not count. The bound stays that of the answer. Source: OWN.
    """
    if not known or not set(problem.pins) <= set(known) or check(problem, known):
        return answer
    other = answer_by_hand(problem, known)
    if (other.value, len(other.placements)) <= (answer.value, len(answer.placements)):
        return answer
    bound = None if answer.bound is None else max(answer.bound, other.value)
    return replace(
        other,
        bound=bound,
        proved_best=bound is not None and other.value >= bound,
        bound_covers=answer.bound_covers,
        seconds=answer.seconds,
        together=kept_together(problem, known),
        looks=looks_of(problem, known),
    )
