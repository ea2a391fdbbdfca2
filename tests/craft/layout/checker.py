"""Whether an answer is a layout that can be cut, judged from the definition alone, without any of the search's code."""

from __future__ import annotations

from itertools import combinations, pairwise
from typing import Any

from shopapi.craft.layout import Answer, Flaw, Placement, Problem, Rules, Stock, Wanted


def overlap(a_low: int, a_high: int, b_low: int, b_high: int) -> bool:
    return a_low < b_high and b_low < a_high


def touches(flaw: Flaw, x: int, y: int, length: int, width: int) -> bool:
    return overlap(x, x + length, flaw.x, flaw.x + flaw.length) and overlap(y, y + width, flaw.y, flaw.y + flaw.width)


def clear_faces(stock: Stock, x: int, y: int, length: int, width: int) -> set[str] | None:
    """Faces on which no flaw lies in the rectangle; None if a flaw that blocks everything does."""
    clear = {"A", "B"}
    for flaw in stock.flaws:
        if touches(flaw, x, y, length, width):
            if flaw.blocks == "all":
                return None
            clear -= set(flaw.faces)
    return clear


def fits(stock: Stock, wanted: Wanted, rules: Rules, x: int, y: int, length: int, width: int) -> bool:
    """Whether a rectangle lies within the trims and clear of the flaws that this part minds."""
    inside = (
        x >= rules.trim_left
        and y >= rules.trim_bottom
        and x + length <= stock.length - rules.trim_right
        and y + width <= stock.width - rules.trim_top
    )
    clear = clear_faces(stock, x, y, length, width)
    if not inside or clear is None:
        return False
    return len(clear) >= {"both": 2, "one": 1, "none": 0}[wanted.clean_faces]


def apart(a: tuple[int, int, int, int], b: tuple[int, int, int, int], kerf: int) -> bool:
    """Whether a saw cut fits between two rectangles (x, y, length, width)."""
    return not (
        overlap(a[0] - kerf, a[0] + a[2] + kerf, b[0], b[0] + b[2])
        and overlap(a[1] - kerf, a[1] + a[3] + kerf, b[1], b[1] + b[3])
    )


def separated(rectangles: list[tuple[int, int, int, int]], axis: int, kerf: int) -> list[list[Any]]:
    """The groups into which straight cuts of a kerf's width part the rectangles (0: crosscuts, 1: rips)."""
    groups: list[list[Any]] = []
    reach = None
    for r in sorted(rectangles, key=lambda r: (r[axis], r)):
        if reach is None or r[axis] >= reach + kerf:
            groups.append([r])
        else:
            groups[-1].append(r)
        reach = max(reach if reach is not None else r[axis], r[axis] + r[2 + axis])
    return groups


TURNS = {"crosscut": ("crosscut", "rip", "crosscut", "rip"), "rip": ("rip", "crosscut", "rip", "crosscut")}
AXES = {"crosscut": 0, "rip": 1}


def stages_complaints(rectangles: list[tuple[int, int, int, int]], rules: Rules) -> list[str]:
    """The cuts allowed must leave single parts; in exact cutting these are as broad as what they are cut from."""
    if rules.stages is None:
        return edge_to_edge_complaints(rectangles, rules.kerf)
    firsts = ("crosscut", "rip") if rules.first_cut == "any" else (rules.first_cut,)
    return min((turn_complaints(rectangles, TURNS[first][: rules.stages], rules) for first in firsts), key=len)


def turn_complaints(rectangles: list[tuple[int, int, int, int]], turns: tuple[str, ...], rules: Rules) -> list[str]:
    groups, before = [rectangles], [rectangles]
    for turn in turns:
        before = groups
        groups = [part for group in groups for part in separated(group, AXES[turn], rules.kerf)]
    wrong = [f"{', '.join(turns)} leave several parts in one piece: {g}" for g in groups if len(g) > 1]
    across = 1 - AXES[turns[-1]]
    if rules.cut_type == "exact":
        wrong += [
            f"before the last cut a piece holds parts of several sizes: {g}"
            for g in before
            if len({(r[across], r[2 + across]) for r in g}) > 1
        ]
    return wrong


def edge_to_edge_complaints(rectangles: list[tuple[int, int, int, int]], kerf: int) -> list[str]:
    if len(rectangles) < 2:
        return []
    for axis in (0, 1):
        groups = separated(rectangles, axis, kerf)
        if len(groups) > 1:
            return [wrong for group in groups for wrong in edge_to_edge_complaints(group, kerf)]
    return [f"no cut from edge to edge parts {rectangles}"]


def tree_complaints(tree: dict[str, Any], stock: Stock, placements: list[Placement], rules: Rules) -> list[str]:
    """The cuts must follow the stages, lose a kerf each, and free exactly the placements."""
    wrong: list[str] = []
    freed: list[tuple[str, int, int, int, int]] = []

    def walk(node: dict[str, Any], stages: tuple[str, ...] | None) -> None:
        if "cut" not in node:
            if node["part"] is not None:
                freed.append((node["part"], node["x"], node["y"], node["length"], node["width"]))
            return
        if stages is not None and node["cut"] not in stages:
            wrong.append(f"a {node['cut']} comes too late at {node['x']}, {node['y']}")
            return
        along, size = ("x", "length") if node["cut"] == "crosscut" else ("y", "width")
        across, breadth = ("y", "width") if node["cut"] == "crosscut" else ("x", "length")
        pieces = node["pieces"]
        for piece in pieces:
            if (piece[across], piece[breadth]) != (node[across], node[breadth]):
                wrong.append(f"a piece is not as broad as what it is cut from: {piece}")
        spans = [(p[along], p[along] + p[size]) for p in pieces]
        kerfs = [(at, at + rules.kerf) for at in node["at"]]
        if not kerfs:
            wrong.append("a node without a cut")
        if any(low >= high for low, high in spans) or any(a[1] > b[0] for a, b in pairwise(spans)):
            wrong.append(f"pieces overlap or are out of order: {spans}")
        if any(overlap(*span, *kerf) for span in spans for kerf in kerfs if rules.kerf):
            wrong.append(f"a saw cut runs through a piece: {spans} {kerfs}")
        start, end = node[along], node[along] + node[size]
        for low, high in [(start, start), *spans, (end, end)]:
            for edge in {low, high} - {start, end}:
                if not any(edge in kerf for kerf in kerfs):
                    wrong.append(f"no cut at {edge}")
        covered = start
        for low, high in sorted(spans + kerfs):
            if low > covered:
                wrong.append(f"wood between {covered} and {low} is neither piece nor sawdust")
            covered = max(covered, high)
        if covered < end or any(low < start or high > end for low, high in spans):
            wrong.append(f"the pieces do not make up the whole: {spans} of {start}..{end}")
        for piece in pieces:
            walk(piece, stages[stages.index(node["cut"]) + 1 :] if stages is not None else None)

    if rules.stages is None:
        walk(tree, None)
    else:
        first = rules.first_cut if rules.first_cut != "any" else tree.get("cut", "crosscut")
        # trimming is one more turn
        walk(tree, TURNS[first][: rules.stages + (rules.cut_type == "trimmed")])
    if (tree["x"], tree["y"], tree["length"], tree["width"]) != (0, 0, stock.length, stock.width):
        wrong.append("the tree does not begin with the whole board")
    placed = sorted((p.wanted, p.x, p.y, p.length, p.width) for p in placements)
    if sorted(freed) != placed:
        wrong.append(f"the cuts free {sorted(freed)}, the placements are {placed}")
    return wrong


def complaints(problem: Problem, answer: Answer) -> list[str]:
    """All that is wrong with an answer; empty for a layout that can be cut as told."""
    wrong: list[str] = []
    rules = problem.rules
    stocks = {s.id: s for s in problem.stocks}
    wanted = {w.id: w for w in problem.wanted}
    by_board: dict[str, list[Placement]] = {}
    for p in answer.placements:
        by_board.setdefault(p.stock, []).append(p)
        part = wanted[p.wanted]
        sizes = {(part.length, part.width)} | ({(part.width, part.length)} if part.any_grain else set())
        if (p.length, p.width) not in sizes:
            wrong.append(f"wrong size: {p}")
        if not fits(stocks[p.stock], part, rules, p.x, p.y, p.length, p.width):
            wrong.append(f"not on clear wood inside the board: {p}")
        elif part.clean_faces == "one" and p.face not in (
            clear_faces(stocks[p.stock], p.x, p.y, p.length, p.width) or ()
        ):
            wrong.append(f"the seen face is not clean: {p}")
    for name, placements in by_board.items():
        rectangles = [(p.x, p.y, p.length, p.width) for p in placements]
        for a, b in combinations(rectangles, 2):
            if not apart(a, b, rules.kerf):
                wrong.append(f"no room for a saw cut on {name} between {a} and {b}")
        wrong += [f"{name}: {w}" for w in stages_complaints(rectangles, rules)]
        wrong += [f"{name}: {w}" for w in tree_complaints(answer.cuts[name], stocks[name], placements, rules)]
    if set(answer.cuts) != set(by_board):
        wrong.append("cuts for boards without parts, or parts without cuts")
    counts = {w.id: 0 for w in problem.wanted}
    for p in answer.placements:
        counts[p.wanted] += 1
    missing = {u.wanted: u.count for u in answer.unplaced}
    for w in problem.wanted:
        if counts[w.id] > w.quantity:
            wrong.append(f"too many of {w.id}")
        if counts[w.id] + missing.get(w.id, 0) != w.quantity:
            wrong.append(f"{w.id}: {counts[w.id]} placed and {missing.get(w.id, 0)} unplaced of {w.quantity}")
    if any(not u.reason for u in answer.unplaced):
        wrong.append("no reason for a part that is not placed")
    value = sum(wanted[p.wanted].value for p in answer.placements)
    if value != answer.value:
        wrong.append(f"the value is {value}, not {answer.value}")
    if answer.bound is not None and answer.value > answer.bound:
        wrong.append("better than its bound")
    if answer.proved_best != (answer.bound is not None and answer.value >= answer.bound):
        wrong.append("proved best must mean that the value reaches the bound")
    return wrong
