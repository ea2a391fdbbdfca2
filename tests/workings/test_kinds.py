"""The list of workings: complete, sourced, and something a phone can keep."""

import pytest

from shopapi.craft.sources import SOURCES
from shopapi.workings.declare import WorkingKind
from shopapi.workings.given import read_inputs
from shopapi.workings.kinds import KINDS
from shopapi.workings.spoken import Tape, spoken
from tests.conftest import Person

WHAT_A_SHOP_ASKS = {
    "wood_facts", "wood_in_air", "air_for_wood", "warmed_air", "width_change", "width_year", "screw_slot", "inset_gap",
    "breadboard_end", "acclimation", "board_feet", "leg_splay", "sloping_box", "half_lap", "taper", "shelf_sag",
    "screw_hold", "table_tip", "mass", "grits", "glue_quantity", "clamps", "glue_time", "finish_quantity", "coat_times",
    "milling_plan",
}  # fmt: skip


def test_nothing_a_shop_asks_is_missing() -> None:
    assert set(KINDS) >= WHAT_A_SHOP_ASKS


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.key)
def test_each_says_its_formula_sources_and_limits(kind: WorkingKind) -> None:
    assert kind.title
    assert kind.purpose
    assert kind.limits
    assert len(kind.formula.split()) >= 4, "in words"
    assert kind.cited
    assert {cited.key for cited in kind.cited} <= set(SOURCES)
    names = [field.name for field in kind.fields]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.key)
@pytest.mark.parametrize("unit", ["metric", "inch"])
def test_every_default_would_be_accepted_if_it_were_typed(kind: WorkingKind, unit: str) -> None:
    tape = Tape("inch" if unit == "inch" else "metric")
    for field in kind.fields:
        default = field.default_for(inch=unit == "inch")
        if default is not None:
            assert read_inputs([field], {field.name: default}, tape) == {field.name: default}
        assert field.kind != "choice" or field.choices


def test_defaults_are_round_in_the_workshops_own_units(maker: Person, stranger: Person) -> None:
    def inset(person: Person) -> float:
        (table,) = [kind for kind in person.client.get("/api/craft/").json() if kind["key"] == "table_tip"]
        return next(field["default"] for field in table["fields"] if field["name"] == "inset_mm")

    assert inset(maker) == 50
    assert inset(stranger) == pytest.approx(2 * 25.4)


def test_a_phone_may_keep_the_list(maker: Person) -> None:
    first = maker.client.get("/api/craft/")
    assert [kind["key"] for kind in first.json()] == list(KINDS)
    again = maker.client.get("/api/craft/", headers={"If-None-Match": first["ETag"]})
    assert again.status_code == 304


@pytest.mark.parametrize(
    ("value", "kind", "inch", "metric"),
    [
        (755.65, "length", '29 3/4"', "755.7 mm"),
        (20, "temperature", "68 °F", "20 °C"),
        (25, "mass", "55.1 lb", "25 kg"),
        (1, "area", "10.8 sq ft", "1 m²"),
        (100, "force", "22.5 lbf", "100 N"),
        (8.5, "percent", "8.5 %", "8.5 %"),
        (90, "angle", "90°", "90°"),
    ],
)
def test_values_in_words(value: float, kind: str, inch: str, metric: str) -> None:
    """Pound 0.45359237 kg, foot 0.3048 m, exact by definition (NIST SP 811)."""
    assert spoken(value, kind, Tape("inch")) == inch
    assert spoken(value, kind, Tape("metric")) == metric
