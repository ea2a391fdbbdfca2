"""A packet from rows to paper: what it freezes, what it says, who may have it, and that it never changes afterwards."""

import json
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command

from shopapi.commissions.models import Commission
from shopapi.craft.finish import cure_times
from shopapi.craft.moisture import seasonal_moisture
from shopapi.craft.movement import home_year, width_through_year
from shopapi.craft.packet import PacketData, from_json
from shopapi.layouts.models import Layout
from shopapi.packets import services
from shopapi.packets.freezing import packet_data
from shopapi.packets.models import Packet
from tests.conftest import Person
from tests.packets.conftest import finished
from tests.printing.reading import Printed


def frozen(desk: dict[str, Any]) -> PacketData:
    return packet_data(Commission.objects.get(pk=desk["id"]), "a4")


def made(person: Person, desk: dict[str, Any]) -> Packet:
    row = person.make("packets", commission=desk["id"], paper="a4")
    return services.packet_build(packet=Packet.objects.get(pk=row["id"]))


def test_boards_come_from_the_layout_in_the_order_of_their_tags(desk: dict, layout: Layout) -> None:
    boards = frozen(desk).boards
    tags = [board.tag for board in boards]
    assert tags == sorted(tags, key=lambda tag: int(tag[1:]))
    pieces = [piece.part for board in boards for piece in board.pieces]
    assert sorted(pieces) == ["Desk top strip"] * 4 + ["Rail"] * 2
    for board in boards:
        assert (board.picture is not None) == (board.tag != "W7")


def test_numbers_are_those_craft_reckons(desk: dict, layout: Layout) -> None:
    data = frozen(desk)
    used = {board.tag for board in data.boards}
    assert data.movement is not None
    home = home_year(28, 52)
    season = seasonal_moisture([month.equilibrium_pct for month in home], 20, "white oak", temp_c=21)
    year = width_through_year(400, "white oak", data.movement.built_mc_pct, home, 0.0, season.monthly_pct)
    assert [month.width_mm for month in data.movement.months] == [month.width_mm for month in year.months]
    assert data.movement.followed_swing_mm is not None
    assert data.movement.followed_swing_mm > data.movement.swing_mm
    assert (data.movement.panel, data.movement.place) == ("Desk top", "Northwick")
    if "W10" in used:
        assert data.movement.built_mc_pct == pytest.approx(8.2)


def test_the_day_of_full_use_follows_the_bench_log(maker: Person, desk: dict) -> None:
    entries = finished(maker, desk)
    data = frozen(desk)
    assert [entry.what for entry in data.finish.entries][-1].startswith("Coat 2")
    assert len(data.finish.entries) == len(entries)
    assert data.use is not None
    last = data.finish.entries[-1].done_at
    cure = cure_times("shellac", 20, 50)
    assert data.use.last_coat_on == last.date()
    for on, hours in ((data.use.light_use_on, cure.light_use_hours), (data.use.full_use_on, cure.full_use_hours)):
        over = last + timedelta(hours=hours)
        # Never promised early, and not a day later than it must be.
        assert over.date() <= on <= over.date() + timedelta(days=1)
    assert data.care.due[0].first_on == data.use.full_use_on + timedelta(days=365)


def test_a_coat_that_is_not_in_the_log_promises_nothing(maker: Person, desk: dict) -> None:
    finished(maker, desk, leave_out_last=True)
    assert frozen(desk).use is None
    assert "so the day of full use is not known" in Printed(services.packet_pdf(packet=made(maker, desk))).text


def test_the_shop_air_stands_in_for_a_reading_and_says_so(maker: Person, desk: dict) -> None:
    finished(maker, desk)
    data = frozen(desk)
    assert any("air in the bench log stands for it" in warning for warning in data.warnings)
    assert any("No layout was made" in warning for warning in data.warnings)


def test_an_unfinished_commission_still_prints(maker: Person, commission: dict) -> None:
    packet = made(maker, commission)
    assert packet.state == Packet.State.DONE
    text = Printed(services.packet_pdf(packet=packet)).text
    assert "The boards it was made from were not written down." in text
    assert "No part is on the list" in text


def test_a_packet_is_printed_whole(maker: Person, desk: dict, layout: Layout) -> None:
    finished(maker, desk)
    packet = made(maker, desk)
    assert (packet.state, packet.problem) == (Packet.State.DONE, "")
    answer = maker.client.get(f"/api/packets/{packet.pk}/file/")
    assert answer["Content-Type"] == "application/pdf"
    document = Printed(b"".join(answer.streaming_content))
    for words in ("Writing desk", "Made for Rowan Ashdown", "Desk top strip", "800 × 400 × 20 mm", "Coat 2"):
        assert words in document.text
    assert document.images()
    data = from_json(PacketData, packet.frozen)
    assert data.movement is not None
    assert f"{data.movement.widest.width_mm:.1f} mm" in document.text


def test_what_was_printed_stays_as_it_was(maker: Person, desk: dict) -> None:
    packet = made(maker, desk)
    before = Printed(services.packet_pdf(packet=packet)).text
    Commission.objects.filter(pk=desk["id"]).update(title="Another desk", home_rh_dry_pct=10)
    packet.refresh_from_db()
    assert Printed(services.packet_pdf(packet=packet)).text == before
    assert "Another desk" in Printed(services.packet_pdf(packet=made(maker, desk))).text


def test_an_unknown_wood_is_left_out_with_a_word_about_it(maker: Person, commission: dict) -> None:
    from shopapi.commissions.models import Part

    Part.objects.create(
        workshop=maker.workshop,
        commission_id=commission["id"],
        name="Top",
        length_mm=900,
        width_mm=500,
        thickness_mm=22,
        species="moonwood",
    )
    data = frozen(commission)
    assert data.movement is None
    assert any("moonwood" in warning for warning in data.warnings)
    assert made(maker, commission).state == Packet.State.DONE


def test_grain_across_the_width_moves_along_the_length(maker: Person, commission: dict) -> None:
    maker.make(
        "parts",
        commission=commission["id"],
        name="Back",
        length_mm=300,
        width_mm=900,
        thickness_mm=20,
        species="white oak",
        grain="width",
    )
    year = frozen(commission).movement
    assert year is not None
    assert year.width_mm == 300


def test_papers_are_the_owners_alone(maker: Person, apprentice: Person, stranger: Person, desk: dict) -> None:
    packet = made(maker, desk)
    assert apprentice.client.get(f"/api/packets/{packet.pk}/file/").status_code == 403
    assert stranger.client.get(f"/api/packets/{packet.pk}/file/").status_code == 404


def test_a_failure_is_kept_in_words(maker: Person, desk: dict, settings: Any, tmp_path: Path) -> None:
    blocked = tmp_path / "blocked"
    blocked.write_text("a file where the folder should be")
    settings.MEDIA_ROOT = blocked
    packet = made(maker, desk)
    assert packet.state == Packet.State.FAILED
    assert "make the packet again" in packet.problem


# The command


def told(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    call_command("build_packet", *arguments)
    return json.loads(capsys.readouterr().out)


def test_the_command_prints_one_packet(
    maker: Person, desk: dict, layout: Layout, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    finished(maker, desk)
    out = tmp_path / "packet.pdf"
    answer = told(capsys, desk["id"], "--out", str(out))
    assert (answer["commission"], answer["out"], answer["paper"]) == (desk["id"], str(out), maker.workshop.paper)
    assert "Writing desk" in Printed(out.read_bytes()).page_text(0)
    assert Packet.objects.get(pk=answer["packet"]).state == Packet.State.DONE


@pytest.mark.parametrize("name", ["Writing desk", "writing desk", "Writ"])
def test_the_command_knows_a_commission_by_its_title(
    desk: dict, name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    answer = told(capsys, name, "--out", str(tmp_path / "a.pdf"), "--paper", "a4")
    assert (answer["title"], answer["paper"]) == ("Writing desk", "a4")


@pytest.mark.parametrize(
    ("name", "out", "complaint"),
    [
        ("Chair", "a.pdf", 'No commission is called "Chair". Known: Writing desk.'),
        ("00000000-0000-4000-8000-000000000000", "a.pdf", "No commission is called"),
        ("Writing desk", "nowhere/a.pdf", "name a file in a folder that exists"),
        ("Writing desk", ".", "name a file in a folder that exists"),
    ],
)
def test_the_command_refuses_in_words(
    desk: dict, name: str, out: str, complaint: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as stop:
        call_command("build_packet", name, "--out", str(tmp_path / out))
    assert stop.value.code == 2
    said = capsys.readouterr()
    assert complaint in said.err
    assert said.out == ""


def test_the_command_asks_which_of_two(
    maker: Person, desk: dict, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    maker.make("commissions", title="Writing desk")
    with pytest.raises(SystemExit):
        call_command("build_packet", "Writing desk", "--out", str(tmp_path / "a.pdf"))
    assert "Give the id." in capsys.readouterr().err


def test_reference_and_date_stand_on_the_cover(maker: Person, desk: dict) -> None:
    data = frozen(desk)
    assert data.reference.replace("-", "").lower() == desk["id"][:6]
    assert data.ordered_on is not None
    assert data.ordered_on <= date.today()  # noqa: DTZ011 - the workshop's own day is checked, not an instant
