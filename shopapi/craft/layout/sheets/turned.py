"""A problem laid on its side, so that a rip comes first, and its answer turned back."""

from __future__ import annotations

from dataclasses import replace

from shopapi.craft.layout.model import CutTree, Placement, Problem

OTHER = {"crosscut": "rip", "rip": "crosscut"}


def turned_problem(problem: Problem) -> Problem:
    """The same boards and parts with x and y swapped; what was ripped is crosscut."""
    rules = problem.rules
    return Problem(
        tuple(
            replace(
                stock,
                length=stock.width,
                width=stock.length,
                flaws=tuple(replace(f, x=f.y, y=f.x, length=f.width, width=f.length) for f in stock.flaws),
            )
            for stock in problem.stocks
        ),
        tuple(replace(w, length=w.width, width=w.length) for w in problem.wanted),
        replace(
            rules,
            trim_left=rules.trim_bottom,
            trim_right=rules.trim_top,
            trim_bottom=rules.trim_left,
            trim_top=rules.trim_right,
            first_cut="crosscut",
        ),
    )


def turned_placement(p: Placement) -> Placement:
    """The placement with x and y swapped."""
    return replace(p, x=p.y, y=p.x, length=p.width, width=p.length)


def turned_tree(node: CutTree) -> CutTree:
    """The tree of cuts with x and y swapped."""
    back = {**node, "x": node["y"], "y": node["x"], "length": node["width"], "width": node["length"]}
    if "cut" in node:
        back["cut"] = OTHER[node["cut"]]
        back["pieces"] = [turned_tree(piece) for piece in node["pieces"]]
    return back


def turned_words(words: str) -> str:
    """What a bound covers, with crosscuts and rips swapped."""
    return " ".join(
        word.replace("crosscut", "rip") if "crosscut" in word else word.replace("rip", "crosscut")
        for word in words.replace("ripped", "cut").split(" ")
    )
