"""The change feed: everything once, in order, removals too."""

from shopapi.workshops.routes import WorkshopViewSet
from tests.conftest import BOARD, Person


def test_feed_tells_what_changed_since(maker: Person) -> None:
    board = maker.make("boards", tag="B1", **BOARD)
    first = maker.client.get("/api/changes/").json()
    assert [(entry["kind"], entry["id"]) for entry in first["entries"]] == [("board", board["id"])]
    assert first["entries"][0]["row"] == board
    maker.make("boards", tag="B2", **BOARD)
    later = maker.client.get(f"/api/changes/?since={first['next']}").json()
    assert [entry["row"]["tag"] for entry in later["entries"]] == ["B2"]
    assert maker.client.get(f"/api/changes/?since={later['next']}").json()["entries"] == []


def test_feed_comes_in_pages(maker: Person) -> None:
    for number in range(7):
        maker.make("boards", tag=f"B{number}", **BOARD)
    since, tags, more = 0, [], True
    while more:
        page = maker.client.get(f"/api/changes/?since={since}&limit=3").json()
        tags += [entry["row"]["tag"] for entry in page["entries"]]
        since, more = page["next"], page["more"]
    assert tags == [f"B{number}" for number in range(7)]


def test_removed_board_goes_with_all_that_hangs_on_it(maker: Person, board: dict) -> None:
    mark = maker.make(
        "marks",
        board=board["id"],
        face="A",
        kind="knot",
        shape={"type": "ellipse", "cx_mm": 300, "cy_mm": 90, "rx_mm": 12, "ry_mm": 9},
    )
    assert maker.client.delete(f"/api/boards/{board['id']}/", headers={"If-Match": '"1"'}).status_code == 204
    gone = {entry["id"] for entry in maker.client.get("/api/changes/").json()["entries"] if entry["gone"]}
    assert gone == {board["id"], mark["id"]}
    assert maker.client.get("/api/marks/").json()["results"] == []
    again = maker.make("boards", tag="B1", **BOARD)  # the tag is free again
    assert again["tag"] == "B1"


def test_odd_questions_are_refused(maker: Person) -> None:
    assert maker.client.get("/api/changes/?since=-1").status_code == 400
    assert maker.client.get("/api/changes/?limit=100000").status_code == 400


def test_feed_asks_the_database_a_fixed_number_of_times(maker: Person, django_assert_max_num_queries) -> None:
    for number in range(20):
        maker.make("boards", tag=f"B{number}", **BOARD)
    # Each kind is asked once; the rest is who asks, and up to where.
    with django_assert_max_num_queries(len(WorkshopViewSet.feed) + 5):
        maker.client.get("/api/changes/")
