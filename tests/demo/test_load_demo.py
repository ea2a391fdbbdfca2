"""The demo as it is loaded: whole, consistent, and only into an empty database."""

import json

import pytest
from django.core.management import call_command

from shopapi.boards.models import Board, Shot
from shopapi.commissions.models import Client, Commission, Part
from shopapi.craft.marks import check_inside, parse_shape
from shopapi.demo import scenario, services
from shopapi.finishing.models import BenchEntry, Step
from shopapi.layouts.models import Layout
from shopapi.marks.models import Mark
from shopapi.workshops.models import Workshop


def test_the_demo_is_whole(db, monkeypatch, capsys):
    monkeypatch.setattr(services, "PHOTO_PX", (800, 600))  # smaller photographs, all else as it is
    call_command("load_demo")
    answer = json.loads(capsys.readouterr().out)
    workshop = Workshop.objects.get(pk=answer["workshop"])
    assert {member.role for member in workshop.members.all()} == {"owner", "helper"}
    assert answer["boards"] == Board.objects.count() == len(scenario.BOARDS) >= 12
    assert answer["shots"] == Shot.objects.filter(state="squared").count() == 2 * answer["boards"]
    assert answer["marks"] == Mark.objects.count() > 30
    assert Mark.objects.filter(kind="knot", through=True).exists()
    for mark in Mark.objects.select_related("board"):
        check_inside(parse_shape(mark.shape), mark.board.length_mm, mark.board.width_mm)
    for shot in Shot.objects.all():
        assert shot.squared.size > 2000
        assert shot.homography[2][2] == 1
    _assert_commissions(answer["commissions"])
    with pytest.raises(SystemExit) as stop:
        call_command("load_demo")
    assert stop.value.code == 2
    assert "empty shop only" in capsys.readouterr().err
    assert Workshop.objects.count() == 1


def _assert_commissions(ids):
    desk, bench, mirror, bookcase = (Commission.objects.get(pk=ids[k]) for k in ("desk", "bench", "mirror", "bookcase"))
    assert [row.stage for row in (desk, bench, mirror, bookcase)] == ["making", "delivered", "finishing", "enquiry"]
    parts = Part.objects.filter(commission=desk)
    assert len(parts) >= 15
    assert sum(part.is_panel for part in parts) >= 2
    layout = Layout.objects.get(commission=bench)
    assert (layout.state, layout.unplaced) == ("done", [])
    finished = Step.objects.filter(plan__commission=bench)
    assert BenchEntry.objects.filter(step__in=finished, early_reason="").count() == finished.count()
    assert Step.objects.filter(plan__commission=mirror, entries=None).exists()
    assert Client.objects.filter(email__endswith=".example").count() == Client.objects.count() == 4


def test_a_workshop_that_is_there_is_left_alone(new_workshop, capsys):
    maker = new_workshop()
    with pytest.raises(services.DemoRefusedError, match="another data folder"):
        services.load_demo()
    assert list(Workshop.objects.all()) == [maker.workshop]
    assert not Board.objects.exists()


def test_the_scenario_is_consistent():
    tags = [board.tag for board in scenario.BOARDS]
    assert len(set(tags)) == len(tags)
    assert len({board.seed for board in scenario.BOARDS}) == len(tags)
