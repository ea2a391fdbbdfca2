"""Frozen papers survive the round trip through JSON, and refuse what they cannot read."""

import json

import pytest

from shopapi.craft.packet import BreakdownData, FrozenError, PacketData, Picture, from_json, to_json
from tests.craft.packet.scenario import board, breakdown, packet_data


def through_text(stored: dict) -> dict:
    return json.loads(json.dumps(stored))


def test_a_packet_comes_back_as_it_was():
    data = packet_data(boards=(board("W7", Picture(content=b"\xff\xd8bytes", sha256="ab")),))
    assert from_json(PacketData, through_text(to_json(data))) == data


def test_a_packet_with_nothing_optional_comes_back():
    data = packet_data(movement=None, use=None, boards=(), parts=(), cautions=(), ordered_on=None)
    assert from_json(PacketData, through_text(to_json(data))) == data


def test_a_breakdown_comes_back_as_it_was():
    assert from_json(BreakdownData, through_text(to_json(breakdown()))) == breakdown()


def test_a_field_this_version_does_not_know_is_left_aside():
    stored = to_json(packet_data()) | {"scent": "linseed"}
    assert from_json(PacketData, stored) == packet_data()


@pytest.mark.parametrize(
    ("change", "complaint"),
    [
        ({"version": 99}, "version 1"),
        ({"made_on": "yesterday"}, "made_on"),
        ({"made_on": 5}, "made_on"),
        ({"paper": "a3"}, "paper"),
        ({"boards": {}}, "boards"),
        ({"boards": [{"tag": "W7"}]}, r"boards\[0\]"),
        ({"measures": {"unit": "inch", "denominator": "16"}}, "denominator"),
        ({"maker": None}, "maker"),
    ],
)
def test_what_cannot_be_read_is_named(change, complaint):
    with pytest.raises(FrozenError, match=complaint):
        from_json(PacketData, to_json(packet_data()) | change)


def test_a_year_that_lost_a_month_is_refused():
    stored = to_json(packet_data())
    stored["movement"]["months"].pop()
    with pytest.raises(FrozenError, match="twelve months"):
        from_json(PacketData, stored)
