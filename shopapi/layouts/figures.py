"""What a layout comes to, so that two can be compared: wood used, what is left of its boards, pieces in and out."""

from collections.abc import Iterator, Mapping
from typing import Any

from shopapi.workshops.models import Workshop

Row = dict[str, Any]


def leftovers_of(cuts: Mapping[str, Any], workshop: Workshop) -> list[Row]:
    """The offcuts worth keeping, by the workshop's own measure, board by board and from the butt end on."""
    return [
        {"board": board, "x_mm": x, "y_mm": y, "length_mm": length, "width_mm": width}
        for board, tree in cuts.items()
        for x, y, length, width in sorted(_offcuts(tree))
        if length >= workshop.least_offcut_length_mm and width >= workshop.least_offcut_width_mm
    ]


def figures_of(
    *,
    placements: list[Row],
    unplaced: list[Row],
    cuts: Mapping[str, Any],
    boards: Mapping[str, Row],
    workshop: Workshop,
) -> Row:
    """Counts and areas of a layout that is done; `boards` holds the sizes it was asked with."""
    used = {row["board"] for row in placements}
    leftovers = leftovers_of(cuts, workshop)
    board_mm2 = sum(boards[key]["length_mm"] * boards[key]["width_mm"] for key in used)
    return {
        "pieces": len(placements),
        "unplaced": sum(row["count"] for row in unplaced),
        "boards_used": len(used),
        "parts_mm2": sum(row["length_mm"] * row["width_mm"] for row in placements),
        "wood_used_mm2": board_mm2 - sum(row["length_mm"] * row["width_mm"] for row in leftovers),
        "board_mm2": board_mm2,
        "leftovers": leftovers,
    }


def _offcuts(node: Mapping[str, Any]) -> Iterator[tuple[float, float, float, float]]:
    if "pieces" in node:
        for piece in node["pieces"]:
            yield from _offcuts(piece)
    elif node.get("part") is None:
        yield node["x"], node["y"], node["length"], node["width"]
