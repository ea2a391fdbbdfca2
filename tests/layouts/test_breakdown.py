"""Breakdown sheets of a layout that was really solved: every cut can be made and frees the pieces it should."""

from typing import Any

import pytest

from shopapi.boards.models import Board
from shopapi.layouts import services
from shopapi.layouts.breakdown import breakdown_data, breakdown_pdf
from shopapi.layouts.models import Layout
from tests.conftest import BOARD, PART, Person
from tests.printing.reading import Printed


@pytest.fixture
def layout(maker: Person, commission: dict, board: dict) -> Layout:
    maker.make("boards", tag="B12", **{**BOARD, "width_mm": 150})
    maker.make("parts", commission=commission["id"], **{**PART, "quantity": 5})
    maker.make("parts", commission=commission["id"], **{**PART, "name": "Panel", "width_mm": 300, "strip_count": 3})
    maker.make("parts", commission=commission["id"], **{**PART, "name": "Wide back", "width_mm": 900})
    shape = {"type": "line", "points": [[900, 20], [1100, 40]], "width_mm": 4}
    maker.make("marks", board=board["id"], kind="check", shape=shape)
    made = maker.make("layouts", commission=commission["id"], seconds=3)
    return services.layout_work_out(layout=Layout.objects.get(pk=made["id"]))


def test_every_placement_is_drawn_and_every_part_left_out_is_named(layout: Layout) -> None:
    data = breakdown_data(layout)
    assert sum(len(board.pieces) for board in data.boards) == len(layout.placements)
    assert [(each.part, each.count) for each in data.left_out] == [("Wide back", 1)]
    assert [mark.kind for board in data.boards if board.tag == "B1" for mark in board.marks] == ["check"]


def test_no_cut_runs_through_a_piece(layout: Layout) -> None:
    """Looked at from outside: the sawn strip of every cut, over the whole of its line, misses every piece."""
    data = breakdown_data(layout)
    assert sum(len(board.cuts) for board in data.boards) >= len(layout.placements) - len(data.boards)
    for board in data.boards:
        for cut in board.cuts:
            for piece in board.pieces:
                along = (piece.x_mm, piece.x_mm + piece.length_mm)
                across = (piece.y_mm, piece.y_mm + piece.width_mm)
                sawn, span = (along, across) if cut.kind == "crosscut" else (across, along)
                misses = cut.at_mm + data.kerf_mm <= sawn[0] + 1e-6 or cut.at_mm >= sawn[1] - 1e-6
                assert misses or cut.to_mm <= span[0] or cut.from_mm >= span[1]


def test_every_edge_of_a_piece_is_sawn_or_is_the_boards_own(layout: Layout) -> None:
    """Within a kerf: a sliver that no saw takes off cleanly stays on the piece."""
    data = breakdown_data(layout)
    for board in data.boards:
        for piece in board.pieces:
            far = piece.x_mm + piece.length_mm
            upper = piece.y_mm + piece.width_mm
            ends = [cut.at_mm for cut in board.cuts if cut.kind == "crosscut"]
            edges = [cut.at_mm for cut in board.cuts if cut.kind == "rip"]
            slack = data.kerf_mm + 1
            assert any(far <= at <= far + slack for at in (*ends, board.length_mm))
            assert any(-slack <= at + data.kerf_mm - piece.x_mm <= 0 for at in (*ends, -data.kerf_mm))
            assert any(upper <= at <= upper + slack for at in (*edges, board.width_mm))
            assert any(-slack <= at + data.kerf_mm - piece.y_mm <= 0 for at in (*edges, -data.kerf_mm))


def test_the_sheets_come_as_a_pdf(maker: Person, layout: Layout) -> None:
    answer = maker.client.get(f"/api/layouts/{layout.pk}/breakdown/")
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/pdf")
    document = Printed(answer.content)
    assert "Breakdown of Writing desk" in document.text
    assert "1 × Wide back" in document.text
    for board in breakdown_data(layout).boards:
        for cut in board.cuts:
            assert f"{cut.at_mm:.0f} mm" in document.text


def test_every_piece_is_cut_at_one_setting_at_least(layout: Layout) -> None:
    """The set-ups free as many blanks of each part as are placed."""
    data = breakdown_data(layout)
    freed: dict[str, int] = {}
    for name, number in [what for each in data.setups for piece in each.pieces for what in piece.what]:
        freed[name] = freed.get(name, 0) + number
    assert freed["Rail"] >= 5
    assert freed["Panel strip"] >= 3
    sizes = {(each.kind, each.size_mm) for each in data.setups}
    assert ("rip", 86.0) in sizes or ("rip", 108.0) in sizes


def test_strips_and_copies_are_told_apart(layout: Layout) -> None:
    names = [piece.part for board in breakdown_data(layout).boards for piece in board.pieces]
    assert {"Panel, strip 1", "Panel, strip 2", "Panel, strip 3", "Rail 1", "Rail 5"} <= set(names)
    assert len(names) == len(set(names))


def test_a_board_taken_out_of_the_rack_since_keeps_its_sheet(layout: Layout) -> None:
    before = breakdown_data(layout).boards
    for row in Board.objects.all():
        row.width_mm += 30
        row.save()
    assert [(board.tag, board.width_mm) for board in breakdown_data(layout).boards] == [
        (board.tag, board.width_mm) for board in before
    ]


def test_a_stranger_gets_no_sheet(stranger: Person, layout: Layout) -> None:
    assert stranger.client.get(f"/api/layouts/{layout.pk}/breakdown/").status_code == 404


def test_a_layout_that_is_not_done_has_no_sheet(maker: Person, commission: dict, board: dict) -> None:
    made: dict[str, Any] = maker.make("layouts", commission=commission["id"], seconds=0.5)
    assert maker.client.get(f"/api/layouts/{made['id']}/breakdown/").status_code == 409


def test_a_layout_kept_by_an_older_version_still_prints(layout: Layout) -> None:
    layout.asked = {"boards": layout.asked["boards"]}
    assert "A part removed since" in Printed(breakdown_pdf(layout)).text
