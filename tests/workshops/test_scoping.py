"""Nobody reaches another workshop's rows, by whatever route; a helper sees no prices and no client."""

import uuid
from typing import Any

import pytest
from django.apps import apps
from django.db import models

from shopapi.finishing.models import Step
from shopapi.urls import api, router
from shopapi.workshops.routes import WorkshopViewSet
from shopapi.workshops.scoping import WorkshopOwned
from tests.conftest import BOARD, PART, PICTURE_CORNERS, Person, work_on_photographs

OUTSIDE_THE_SCOPE = {
    # model: why it belongs to no workshop row by row
    "workshops.Workshop": "the tenant itself",
    "workshops.Member": "read through its workshop only, in MemberViewSet",
    "workshops.SignInLink": "found by its secret only",
    "workshops.ApiToken": "read through its member only, in TokenViewSet",
    "sync.StoredReply": "found by who sent it and their key",
}


@pytest.fixture
def rows(maker: Person, picture_of_board: bytes) -> dict[str, dict[str, Any]]:
    """One row of every kind in the maker's workshop."""
    from django.core.files.uploadedfile import SimpleUploadedFile

    client = maker.make("clients", name="A client", phone="555 0100", email="c@example.org")
    commission = maker.make("commissions", title="Desk", client=client["id"], price="4200.00", notes="call at 555 0100")
    board = maker.make("boards", tag="B1", price="88.00", **BOARD)
    shot = maker.client.post(
        "/api/shots/",
        {
            "board": board["id"],
            "face": "A",
            "photo": SimpleUploadedFile("b.jpg", picture_of_board),
            "corners": str(PICTURE_CORNERS),
        },
        format="multipart",
    )
    assert shot.status_code == 201, shot.content
    work_on_photographs()
    (face_picture,) = maker.client.get("/api/face-pictures/").json()["results"]
    plan = maker.make("surface-plans", commission=commission["id"], finish_class="shellac")
    step = Step.objects.filter(plan_id=plan["id"]).order_by("position")[0]
    shape = {"type": "ellipse", "cx_mm": 300, "cy_mm": 90, "rx_mm": 12, "ry_mm": 9}
    sawn = maker.make("boards", tag="B0", **BOARD)
    piece = {"id": str(uuid.uuid4()), "tag": "B0a", "x_mm": 0, "y_mm": 0, "length_mm": 900, "width_mm": 90}
    trip = maker.make("buying-trips", commission=commission["id"], opened_on="2026-03-02", dealer="The yard")
    return {
        "client": client,
        "commission": commission,
        "part": maker.make("parts", commission=commission["id"], **PART),
        "board": board,
        "reading": maker.make("readings", board=board["id"], mc_pct=8.2, read_on="2026-03-04"),
        "shot": shot.json(),
        "face_picture": face_picture,
        "mark": maker.make("marks", board=board["id"], face="A", kind="knot", shape=shape),
        "cut": maker.make("cuts", board=sawn["id"], kind="layout", pieces=[piece]),
        "outcome": maker.make(
            "outcomes",
            board=board["id"],
            layout=maker.make("layouts", commission=commission["id"])["id"],
            board_mm2=480_000,
            got_mm2=300_000,
        ),
        "buying_trip": trip,
        "offer": maker.make(
            "offers", trip=trip["id"], tag="B9", price="88.00", **BOARD, board=board["id"], bought=True
        ),
        "layout": maker.make(
            "layouts", commission=commission["id"], based_on=maker.make("layouts", commission=commission["id"])["id"]
        ),
        "working": maker.make(
            "workings",
            commission=commission["id"],
            part=maker.make("parts", commission=commission["id"], **PART)["id"],
            kind="wood_in_air",
            inputs={"rh_pct": 45},
        ),
        "surface_plan": plan,
        "step": maker.client.get(f"/api/steps/{step.pk}/").json(),
        "bench_entry": maker.make("bench-entries", step=str(step.pk), done_at="2026-03-04T10:00:00Z"),
        "packet": maker.make("packets", commission=commission["id"]),
    }


ROUTES = {viewset.kind: viewset for _, viewset, _ in router.registry if getattr(viewset, "kind", "")}
PATHS = {viewset.kind: prefix for prefix, viewset, _ in router.registry if getattr(viewset, "kind", "")}


def test_every_kind_has_a_row_here(rows: dict[str, Any]) -> None:
    assert set(rows) == set(PATHS) == set(WorkshopViewSet.feed)


def test_every_route_is_scoped() -> None:
    """A route that forgets the base class, or a model that forgets its workshop, fails here."""
    for prefix, viewset, _ in router.registry:
        assert issubclass(viewset, WorkshopViewSet) or prefix in {"members", "tokens"}, prefix
    for model in apps.get_models():
        label = model._meta.label
        if model.__module__.startswith("shopapi."):
            assert issubclass(model, WorkshopOwned) or label in OUTSIDE_THE_SCOPE, label


@pytest.mark.parametrize("kind", sorted(PATHS))
def test_stranger_finds_nothing(kind: str, rows: dict[str, Any], stranger: Person) -> None:
    address = f"/api/{PATHS[kind]}/{rows[kind]['id']}/"
    for method in ("get", "put", "patch", "delete"):
        answer = getattr(stranger.client, method)(address, {}, format="json", headers={"If-Match": "*"})
        expected = 404 if method in ROUTES[kind].http_method_names else 405
        assert answer.status_code == expected, f"leaked: {method} {address}"
    listed = stranger.client.get(f"/api/{PATHS[kind]}/").json()
    assert listed["results"] == [], f"leaked: {kind} in a list"


@pytest.mark.parametrize("action", ["preview", "squared", "original"])
def test_stranger_sees_no_picture(action: str, rows: dict[str, Any], stranger: Person) -> None:
    assert stranger.client.get(f"/api/shots/{rows['shot']['id']}/{action}/").status_code == 404


def test_stranger_sees_no_face(rows: dict[str, Any], stranger: Person) -> None:
    assert stranger.client.get(f"/api/face-pictures/{rows['face_picture']['id']}/picture/").status_code == 404


def test_stranger_gets_no_paper(rows: dict[str, Any], stranger: Person) -> None:
    assert stranger.client.get(f"/api/layouts/{rows['layout']['id']}/breakdown/").status_code == 404
    assert stranger.client.get(f"/api/packets/{rows['packet']['id']}/file/").status_code == 404


def test_stranger_hears_of_no_change(rows: dict[str, Any], stranger: Person) -> None:
    assert stranger.client.get("/api/changes/").json()["entries"] == []


REFERENCES = [
    (viewset.kind, name)
    for _, viewset, _ in router.registry
    if issubclass(viewset, WorkshopViewSet)
    for name in viewset.serializer_class.Meta.fields
    if name in {f.name for f in viewset.model._meta.get_fields() if isinstance(f, models.ForeignKey)}
    and name not in viewset.serializer_class.Meta.read_only_fields
]


def test_the_list_of_references_is_not_empty() -> None:
    assert ("part", "commission") in REFERENCES
    assert ("mark", "board") in REFERENCES


@pytest.mark.parametrize(("kind", "name"), [pair for pair in REFERENCES if pair[1] != "done_by"])
def test_no_row_can_hang_on_a_strangers(kind: str, name: str, rows: dict[str, Any], stranger: Person) -> None:
    """A foreign key in a body is looked up inside the workshop only."""
    body = {key: value for key, value in rows[kind].items() if key != "id" and value is not None}
    if kind == "shot":
        pytest.skip("a shot's board is tested with its photograph in tests/boards")
    answer = stranger.client.post(f"/api/{PATHS[kind]}/", body, format="json")
    assert answer.status_code == 400, f"leaked: {kind}.{name} accepted"
    assert name in answer.json()["errors"]


def test_helper_sees_no_money_and_no_client(rows: dict[str, Any], apprentice: Person) -> None:
    for kind in ("commission", "board", "offer"):
        row = apprentice.client.get(f"/api/{PATHS[kind]}/{rows[kind]['id']}/").json()
        assert "price" not in row
        assert "client" not in row
        assert "notes" not in row or kind == "board"
    for kind in ("client", "packet"):
        assert apprentice.client.get(f"/api/{PATHS[kind]}/").status_code == 403
        assert apprentice.client.get(f"/api/{PATHS[kind]}/{rows[kind]['id']}/").status_code == 403
    feed = apprentice.client.get("/api/changes/").content.decode()
    for secret in ("555 0100", "4200.00", "88.00", "c@example.org"):
        assert secret not in feed, f"leaked: {secret}"


def test_helper_cannot_set_what_they_cannot_see(rows: dict[str, Any], maker: Person, apprentice: Person) -> None:
    answer = apprentice.client.patch(
        f"/api/boards/{rows['board']['id']}/",
        {"price": "1.00", "place": "top shelf"},
        format="json",
        headers={"If-Match": "*"},
    )
    assert answer.status_code == 200
    board = maker.client.get(f"/api/boards/{rows['board']['id']}/").json()
    assert (board["price"], board["place"]) == ("88.00", "top shelf")


@pytest.mark.parametrize(
    ("method", "path"),
    [("patch", "workshop"), ("get", "members"), ("post", "members"), ("post", "clients"), ("post", "packets")],
)
def test_helper_is_refused_what_is_the_owners(method: str, path: str, apprentice: Person) -> None:
    answer = getattr(apprentice.client, method)(f"/api/{path}/", {}, format="json")
    assert answer.status_code == 403
    assert answer["Content-Type"] == "application/problem+json"


def test_signed_out_gets_401_everywhere(client: Any, db: None) -> None:
    open_to_all = {"session", "session-link", "schema", "docs"}
    for route in api:
        if getattr(route, "name", None) in open_to_all or not getattr(route, "name", None):
            continue
        address = str(route.pattern).replace("<uuid:pk>", str(uuid.uuid4()))
        assert client.get(f"/api/{address}").status_code in {401, 405}, route.name
    for prefix in [prefix for prefix, _, _ in router.registry]:
        assert client.get(f"/api/{prefix}/").status_code == 401, prefix
        assert client.get(f"/api/{prefix}/{uuid.uuid4()}/").status_code in {401, 404, 405}, prefix
