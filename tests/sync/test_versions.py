"""Two people change the same row: the later one is told, with both versions."""

from tests.conftest import Person


def test_second_tab_is_told(maker: Person, board: dict) -> None:
    address = f"/api/boards/{board['id']}/"
    assert maker.client.get(address)["ETag"] == '"1"'
    mine = maker.client.patch(address, {"place": "loft"}, format="json", headers={"If-Match": '"1"'})
    assert mine["ETag"] == '"2"'
    theirs = maker.client.patch(address, {"place": "shed"}, format="json", headers={"If-Match": '"1"'})
    assert theirs.status_code == 412
    assert theirs.json()["current"]["place"] == "loft"
    assert theirs.json()["current"]["revision"] == 2
    assert maker.client.get(address).json()["place"] == "loft"


def test_blind_change_is_refused(maker: Person, board: dict) -> None:
    address = f"/api/boards/{board['id']}/"
    assert maker.client.patch(address, {"place": "loft"}, format="json").status_code == 428
    assert maker.client.delete(address).status_code == 428
    assert maker.client.get(address).json() == board


def test_same_id_twice_is_refused_not_overwritten(maker: Person, board: dict) -> None:
    answer = maker.client.post("/api/boards/", {**board, "tag": "other"}, format="json")
    assert answer.status_code == 409
    assert maker.client.get(f"/api/boards/{board['id']}/").json()["tag"] == "B1"
