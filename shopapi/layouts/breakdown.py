"""Breakdown sheets: a layout frozen as plain data, then drawn. Sizes and marks are those the layout was asked with."""

import re
from collections.abc import Callable
from datetime import datetime
from io import BytesIO
from typing import Any, cast
from zoneinfo import ZoneInfo

from django.core.files.storage import default_storage
from django.utils import timezone

from shopapi.boards.models import Board
from shopapi.boards.selectors import boards_by_id, face_picture
from shopapi.craft.marks import MarkError, parse_shape
from shopapi.craft.measures import Unit
from shopapi.craft.packet import (
    BoardBreakdown,
    BoardMark,
    BreakdownData,
    LeftOut,
    Measures,
    Paper,
    Picture,
    Piece,
    board_mark,
    named_sections,
    ordered_cuts,
    setups,
)
from shopapi.craft.rough import blanks_for
from shopapi.layouts.models import Layout
from shopapi.printing.documents.breakdown import build_breakdown
from shopapi.workshops.models import Workshop

Row = dict[str, Any]
Naming = Callable[[Row, Row], str]
# A board measured anew since it was photographed: beyond this the picture would be drawn out of shape.
SAME_SIZE = 0.02


def breakdown_pdf(layout: Layout) -> bytes:
    """The breakdown sheets of a layout that is done, as a PDF."""
    out = BytesIO()
    build_breakdown(breakdown_data(layout), out, read_picture)
    return out.getvalue()


def breakdown_data(layout: Layout) -> BreakdownData:
    """All that the sheets say, from what the layout was asked and what it answered."""
    workshop, asked = layout.workshop, layout.asked
    return BreakdownData(
        workshop=workshop.name,
        commission=layout.commission.title,
        made_on=local_time(layout.finished_at or timezone.now(), workshop).date(),
        kerf_mm=float(asked.get("kerf_mm", workshop.kerf_mm)),
        end_trim_mm=float(asked.get("end_trim_mm", workshop.end_trim_mm)),
        boards=_boards(layout),
        left_out=tuple(
            LeftOut(_left_name(_part(asked, row["part"])), row["count"], row["reason"]) for row in layout.unplaced
        ),
        paper=paper_of(workshop.paper),
        measures=measures_of(workshop),
        setups=setups(_trees(layout), _names(layout), measures_of(workshop)),
    )


def _trees(layout: Layout) -> list[tuple[str, Row]]:
    return [(kept["tag"], layout.cuts[key]) for key, kept, _ in used_boards(layout) if layout.cuts.get(key)]


def _names(layout: Layout) -> dict[str, str]:
    return {key: _cut_name(part) for key, part in layout.asked.get("parts", {}).items()}


def measures_of(workshop: Workshop) -> Measures:
    return Measures(cast(Unit, workshop.units), workshop.inch_denominator)


def paper_of(choice: str) -> Paper:
    return cast(Paper, choice)


def local_time(moment: datetime, workshop: Workshop) -> datetime:
    return moment.astimezone(ZoneInfo(workshop.time_zone))


def read_picture(name: str) -> bytes:
    """The bytes of a stored picture."""
    with default_storage.open(name, "rb") as file:
        return bytes(file.read())


def _boards(layout: Layout) -> tuple[BoardBreakdown, ...]:
    asked = layout.asked
    names = _names(layout)
    kerf_mm, trim_mm = float(asked.get("kerf_mm", 0)), float(asked.get("end_trim_mm", 0))
    rows = []
    for key, kept, board in used_boards(layout):
        tree = layout.cuts.get(key)
        rows.append(
            BoardBreakdown(
                tag=kept["tag"],
                species=kept["species"],
                length_mm=float(kept["length_mm"]),
                width_mm=float(kept["width_mm"]),
                thickness_mm=float(kept["thickness_mm"]),
                place=board.place if board else "",
                picture=picture_of(board, kept),
                marks=_marks(kept),
                pieces=pieces_on(layout, key, _sheet_name),
                cuts=ordered_cuts(tree, names, kerf_mm, trim_mm) if tree else (),
                sections=named_sections(tree) if tree else (),
            )
        )
    return tuple(rows)


def used_boards(layout: Layout) -> list[tuple[str, Row, Board | None]]:
    """Each board that carries a piece: its id, its sizes as asked, and its row as it is now; in the order of tags."""
    ids = {row["board"] for row in layout.placements}
    boards = boards_by_id(layout.workshop, ids)
    kept = {key: row for key, row in layout.asked.get("boards", {}).items() if key in ids}
    return sorted(
        ((key, row, boards.get(key)) for key, row in kept.items()), key=lambda entry: _natural(entry[1]["tag"])
    )


def _natural(tag: str) -> list[tuple[int, int, str]]:
    """W2 before W10."""
    return [(0, int(run), "") if run.isdecimal() else (1, 0, run) for run in re.findall(r"\d+|\D+", tag.casefold())]


def picture_of(board: Board | None, kept: Row) -> Picture | None:
    """The picture of the board's face A, unless the board was of another size when it was squared."""
    face = face_picture(board) if board else None
    if face is None:
        return None
    pairs = ((face.squared_length_mm, kept["length_mm"]), (face.squared_across_mm, kept["width_mm"]))
    if any(then and abs(then - asked) > SAME_SIZE * asked for then, asked in pairs):
        return None
    return Picture(path=face.picture.name, sha256=face.sha256)


def pieces_on(layout: Layout, board: str, naming: Naming) -> tuple[Piece, ...]:
    """The pieces on one board, from the butt end and from the lower edge on, named as the paper wants them."""
    rows = [row for row in layout.placements if row["board"] == board]
    rows.sort(key=lambda row: (row["x_mm"], row["y_mm"]))
    return tuple(
        Piece(
            naming(_part(layout.asked, row["part"]), row),
            float(row["x_mm"]),
            float(row["y_mm"]),
            float(row["length_mm"]),
            float(row["width_mm"]),
            row.get("face", "A"),
        )
        for row in rows
    )


def plain_name(part: Row, _placement: Row) -> str:
    """The part's name; a strip is called one."""
    return _cut_name(part)


def _sheet_name(part: Row, placement: Row) -> str:
    """The name with which of its kind the piece is, and the face that is clear where that is not face A."""
    back = ", face B shows" if placement.get("face") == "B" else ""
    if several_out_of(part):
        return f"{part['name']}, {blank_words(part, placement)}{back}"
    strips = part.get("strip_count", 1) != 1
    name = part["name"] if part.get("quantity", 1) == 1 else f"{part['name']} {placement['piece']}"
    strip = f", strip {placement['strip']}" if strips else ""
    return f"{name}{strip}{back}"


def several_out_of(part: Row) -> bool:
    """Whether one blank of the part holds several of its pieces."""
    return bool(part.get("blank_holds", 1) > 1)


def blank_words(part: Row, placement: Row) -> str:
    """Which blank it is and what comes out of it, once cut to shape."""
    total = max(blanks_for(part["quantity"], part["blank_holds"]), placement["piece"])
    return f"blank {placement['piece']} of {total} ({part['blank_holds']} pieces)"


def _left_name(part: Row) -> str:
    """What is left over is counted in blanks where one holds several pieces."""
    return _cut_name(part) if several_out_of(part) else str(part["name"])


def _cut_name(part: Row) -> str:
    if several_out_of(part):
        return f"{part['name']} blank"
    return f"{part['name']} strip" if part.get("strip_count", 1) != 1 else str(part["name"])


def _part(asked: Row, key: str) -> Row:
    """What was asked of a part; a layout kept by an older version may know less."""
    return asked.get("parts", {}).get(key) or {"name": "A part removed since"}


def _marks(kept: Row) -> tuple[BoardMark, ...]:
    marks = []
    for row in kept.get("marks", ()):
        try:
            shape = parse_shape(row["shape"])
        except (MarkError, KeyError):  # stored long ago in a shape no longer known: the solver refused it too
            continue
        marks.append(
            board_mark(row["kind"], shape, blocks=row["blocks"], face=row["face"], through=bool(row.get("through")))
        )
    return tuple(marks)
