"""Panels whose strips the solver chooses, parts that belong together, and the tone of boards."""

import io
from itertools import combinations

import pytest
from django.core.files.base import ContentFile
from PIL import Image, ImageDraw

from shopapi.boards.models import Board, Shot
from shopapi.layouts.breakdown import breakdown_data
from shopapi.layouts.models import Layout
from shopapi.layouts.tones import tones_of
from tests.conftest import BOARD, PART, Person
from tests.craft.test_tone import lab
from tests.layouts.test_by_hand import by_hand, pin, refused
from tests.layouts.test_layouts_api import apart, worked_out

FREE = {**PART, "name": "Top", "width_mm": 300, "strip_count": 0, "strip_least_mm": 50, "strip_most_mm": 120}
# What two joints take from a strip, and what the blank is sawn wider by: the workshop's defaults.
LOSS_MM, SAWN_MM = 6, 306


@pytest.fixture
def top(maker: Person, commission: dict) -> dict:
    return maker.make("parts", commission=commission["id"], **FREE)


def strip_sums(layout: dict, part: dict) -> dict[int, float]:
    """By panel: what its strips come to once they are jointed."""
    sums: dict[int, float] = {}
    for placed in layout["placements"]:
        if placed["part"] == part["id"]:
            sums[placed["piece"]] = sums.get(placed["piece"], 0) + placed["width_mm"] - LOSS_MM
    return sums


def test_strips_of_the_solvers_choice_make_up_the_panel(maker: Person, commission: dict, top: dict) -> None:
    for number, width in enumerate((150, 95, 130, 215)):
        maker.make("boards", tag=f"B{number}", **{**BOARD, "length_mm": 1000, "width_mm": width})
    layout = worked_out(maker, commission)
    assert (layout["state"], layout["unplaced"]) == ("done", [])
    assert strip_sums(layout, top) == {1: SAWN_MM}
    strips = [p for p in layout["placements"] if p["part"] == top["id"]]
    assert [p["strip"] for p in sorted(strips, key=lambda p: p["strip"])] == list(range(1, len(strips) + 1))
    assert all(50 <= p["width_mm"] <= 120 for p in strips)
    assert all(apart(a, b, kerf=3.2) for a, b in combinations(strips, 2))
    names = [
        piece.part for board in breakdown_data(Layout.objects.get(pk=layout["id"])).boards for piece in board.pieces
    ]
    assert "Top, strip 1" in names


def test_panels_that_find_no_place_are_counted_as_panels(maker: Person, commission: dict, board: dict) -> None:
    maker.make("parts", commission=commission["id"], **{**FREE, "quantity": 9})
    layout = worked_out(maker, commission)
    (left,) = layout["unplaced"]
    assert 0 < left["count"] < 9
    assert left["reason"]
    assert len({p["piece"] for p in layout["placements"]}) == 9 - left["count"]


def test_a_panel_by_hand_is_whole_once_its_strips_add_up(maker: Person, commission: dict, top: dict) -> None:
    board = maker.make("boards", tag="W", **{**BOARD, "width_mm": 350})
    widths = (100, 104, 120)  # 324 less 6 for each: 306
    places = [0, 104, 212]
    pins = [
        pin(board, top, 1, y=y, width_mm=width, strip=n)
        for n, (y, width) in enumerate(zip(places, widths, strict=True), start=1)
    ]
    assert by_hand(maker, commission, pins)["unplaced"] == []
    (left,) = by_hand(maker, commission, pins[:2])["unplaced"]
    assert (left["count"], left["reason"]) == (1, "Its strips do not make it up yet")


def test_a_strip_by_hand_outside_the_widths_allowed_is_refused(
    maker: Person, commission: dict, board: dict, top: dict
) -> None:
    errors = refused(maker, commission, [pin(board, top, 1, width_mm=130, strip=1)])
    assert "a strip of this panel is 625 mm long and 50 mm to 120 mm wide" in errors["pinned.0"][0]


def test_pinned_strips_stay_and_the_rest_is_added(maker: Person, commission: dict, board: dict, top: dict) -> None:
    layout = worked_out(maker, commission, pinned=[pin(board, top, 1, x=900, y=10, width_mm=97, strip=2)])
    assert (layout["state"], layout["unplaced"]) == ("done", [])
    kept = [p for p in layout["placements"] if p["pinned"]]
    assert [(p["x_mm"], p["y_mm"], p["width_mm"]) for p in kept] == [(900, 10, 97)]
    assert strip_sums(layout, top) == {1: SAWN_MM}
    numbers = [(p["piece"], p["strip"]) for p in layout["placements"]]
    assert len(set(numbers)) == len(numbers)


def test_widths_that_cannot_make_the_panel_are_said_in_words(maker: Person, commission: dict, board: dict) -> None:
    maker.make("parts", commission=commission["id"], **{**FREE, "strip_least_mm": 280, "strip_most_mm": 290})
    problem = worked_out(maker, commission)["problem"]
    assert problem == (
        "No number of strips from 280 mm to 290 mm makes up Top, which is sawn 306 mm wide. "
        "Allow wider or narrower strips."
    )
    answer = maker.client.post(
        "/api/parts/",
        {**FREE, "commission": commission["id"], "strip_least_mm": 90, "strip_most_mm": 60},
        format="json",
    )
    assert answer.status_code == 400
    assert "narrower than the narrowest" in answer.json()["detail"]


def test_parts_of_a_group_come_from_one_board(maker: Person, commission: dict) -> None:
    for number in range(4):
        maker.make("boards", tag=f"B{number}", flitch="F1" if number else "", **{**BOARD, "length_mm": 1500})
    fronts = maker.make("parts", commission=commission["id"], **{**PART, "quantity": 4, "together": "fronts"})
    maker.make("parts", commission=commission["id"], **{**PART, "name": "Rest", "quantity": 3})
    layout = worked_out(maker, commission)
    used = {p["board"] for p in layout["placements"] if p["part"] == fronts["id"]}
    assert layout["unplaced"] == []
    assert [(group["group"], group["level"]) for group in layout["kept_together"]] == [("fronts", "board")]
    assert set(layout["kept_together"][0]["stocks"]) == used
    assert len(used) == 1


@pytest.mark.parametrize("aim", ["looks", "yield"])
def test_prized_figure_is_found_where_it_is_wished_for(aim: str, maker: Person, commission: dict) -> None:
    boards = [maker.make("boards", tag=f"B{n}", **{**BOARD, "length_mm": 800}) for n in range(3)]
    figure = {"type": "outline", "points": [[0, 0], [800, 0], [800, 200], [0, 200]]}
    maker.make("marks", board=boards[1]["id"], face="A", kind="figure", shape=figure, blocks="none")
    lid = maker.make("parts", commission=commission["id"], **{**PART, "name": "Lid", "wish": "figure"})
    layout = worked_out(maker, commission, aim=aim)
    assert layout["unplaced"] == []
    (placed,) = layout["placements"]
    assert placed["part"] == lid["id"]
    assert aim == "yield" or placed["board"] == boards[1]["id"]


def photographed(board: Board, colour: tuple[int, int, int], face: str = "A") -> None:
    """A squared photograph of one colour, a stripe of dirt across it."""
    picture = Image.new("RGB", (1200, 100), colour)
    ImageDraw.Draw(picture).rectangle((0, 0, 11, 100), fill=(0, 0, 0))
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=95)
    shot = Shot(workshop=board.workshop, board=board, face=face, state=Shot.State.SQUARED, width_px=1200, height_px=100)
    shot.squared.save("squared.jpg", ContentFile(out.getvalue()), save=False)
    shot.save()


def test_the_tone_of_a_board_is_that_of_its_photograph(maker: Person) -> None:
    colours = {"pale": (214, 184, 140), "dark": (92, 64, 42)}
    for tag in (*colours, "unseen"):
        maker.make("boards", tag=tag, **BOARD)
    boards = {board.tag: board for board in Board.objects.all()}
    photographed(boards["pale"], (10, 200, 10))  # an older one, and the other face, do not count
    photographed(boards["pale"], (10, 200, 10), face="B")
    for tag, colour in colours.items():
        photographed(boards[tag], colour)
    tones = tones_of(boards.values())
    assert set(tones) == {str(boards[tag].pk) for tag in colours}
    for tag, colour in colours.items():
        assert tones[str(boards[tag].pk)] == pytest.approx(lab(colour), abs=2)
