"""What the background worker does to photographs, and what may come in between."""

from typing import Any

import pytest
from django.core.files.base import ContentFile
from django.core.management import call_command

from shopapi.boards import selectors, services
from shopapi.boards.models import Shot
from tests.boards.test_boards_api import shot_now, square, upload
from tests.conftest import PICTURE_CORNERS, Person, work_on_photographs

OTHER_CORNERS = [[40, 262], [760, 250], [760, 190], [40, 178]]


@pytest.fixture
def shot(maker: Person, board: dict[str, Any], picture_of_board: bytes) -> dict[str, Any]:
    return upload(maker, board, picture_of_board).json()


def row_of(shot: dict[str, Any]) -> Shot:
    return Shot.objects.select_related("board").get(pk=shot["id"])


@pytest.mark.django_db(transaction=True)
def test_the_queue_carries_a_photograph_all_the_way(maker: Person, board: dict, picture_of_board: bytes) -> None:
    """Through the worker itself: corners that come before it has begun are not lost."""
    shot = upload(maker, board, picture_of_board).json()
    answer = square(maker, shot, PICTURE_CORNERS)
    assert answer.json()["state"] == "received"
    call_command("db_worker", batch=True, interval=0, startup_delay=False, verbosity=0)
    assert shot_now(maker, shot)["state"] == "squared"


def test_corners_sent_with_the_photo_need_no_second_word(maker: Person, board: dict, picture_of_board: bytes) -> None:
    made = upload(maker, board, picture_of_board, corners=str(PICTURE_CORNERS)).json()
    assert (made["state"], made["corners"]) == ("received", PICTURE_CORNERS)
    work_on_photographs()
    assert shot_now(maker, made)["state"] == "squared"


def test_what_the_worker_wrote_makes_no_phone_stale(maker: Person, shot: dict[str, Any]) -> None:
    """The phone heard of the first revision only; a person's change since would still be told."""

    def set_corners(corners: Any, revision: int) -> Any:
        headers = {"If-Match": f'"{revision}"'}
        return maker.client.patch(f"/api/shots/{shot['id']}/", {"corners": corners}, format="json", headers=headers)

    work_on_photographs()
    assert shot_now(maker, shot)["revision"] > shot["revision"]
    set_answer = set_corners(PICTURE_CORNERS, shot["revision"])
    assert set_answer.status_code == 200
    work_on_photographs()
    assert set_corners(OTHER_CORNERS, shot["revision"]).status_code == 412
    assert set_corners(OTHER_CORNERS, set_answer.json()["revision"]).status_code == 200


def test_a_board_removed_while_its_shot_is_squared_stays_removed(
    maker: Person, board: dict[str, Any], shot: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    square(maker, shot, PICTURE_CORNERS)
    row = row_of(shot)
    gone = maker.client.delete(f"/api/boards/{board['id']}/", headers={"If-Match": "*"})
    assert gone.status_code == 204
    services.shot_work(shot=row)
    left = row_of(shot)
    assert left.gone_at is not None
    assert not left.squared
    assert selectors.unfinished_shots() == []
    entries = maker.client.get("/api/changes/").json()["entries"]
    assert {entry["id"]: entry["gone"] for entry in entries}[shot["id"]] is True


def test_corners_moved_while_they_were_squared_win(maker: Person, shot: dict[str, Any]) -> None:
    square(maker, shot, PICTURE_CORNERS)
    work_on_photographs()
    square(maker, shot, PICTURE_CORNERS)
    row = row_of(shot)
    square(maker, shot, OTHER_CORNERS)
    services.shot_work(shot=row)
    now = shot_now(maker, shot)
    assert (now["state"], now["corners"]) == ("squared", OTHER_CORNERS)
    x, y, w = (sum(a * b for a, b in zip(line, (*OTHER_CORNERS[0], 1), strict=True)) for line in now["homography"])
    assert (x / w, y / w) == pytest.approx((0, 0), abs=1e-6)


def test_what_a_stopped_service_left_is_done_after_all(maker: Person, shot: dict[str, Any]) -> None:
    assert services.photographs_left_behind() == 1
    work_on_photographs()
    assert services.photographs_left_behind() == 0
    square(maker, shot, PICTURE_CORNERS)
    assert services.photographs_left_behind() == 1


def test_a_board_that_no_longer_fits_its_corners_says_so(maker: Person, board: dict, shot: dict[str, Any]) -> None:
    """Length and width put the wrong way round: the picture squared before stays."""
    square(maker, shot, PICTURE_CORNERS)
    work_on_photographs()
    sizes = {"length_mm": 200, "width_mm": 2400}
    maker.client.patch(f"/api/boards/{board['id']}/", sizes, format="json", headers={"If-Match": "*"})
    work_on_photographs()
    now = shot_now(maker, shot)
    assert now["state"] == "failed"
    assert "short side" in now["problem"]
    assert maker.client.get(f"/api/shots/{shot['id']}/squared/").status_code == 200


def test_a_lost_file_is_told_and_the_next_corners_try_again(maker: Person, shot: dict[str, Any]) -> None:
    row = row_of(shot)
    with row.original.open("rb") as file:
        kept = file.read()
    row.original.storage.delete(row.original.name)
    work_on_photographs()
    now = shot_now(maker, shot)
    assert now["state"] == "failed"
    assert "It is kept" in now["problem"]
    row.original.storage.save(row.original.name, ContentFile(kept))
    square(maker, shot, PICTURE_CORNERS)
    work_on_photographs()
    assert shot_now(maker, shot)["state"] == "squared"
