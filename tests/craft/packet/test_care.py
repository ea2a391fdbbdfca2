"""Care and cautions by finish class; common practice, no source, except that oily rags heat up (finishing.json)."""

from datetime import date

import pytest

from shopapi.craft.finish import FINISH_CLASSES
from shopapi.craft.packet import care_plan, cautions_for


@pytest.mark.parametrize("finish_class", FINISH_CLASSES)
def test_every_class_has_its_own_repair(finish_class):
    assert care_plan(finish_class).repair != care_plan("an unknown class").repair


def test_the_first_look_is_due_a_year_after_full_use():
    plan = care_plan("hardwax_oil", date(2026, 4, 8))
    assert {due.first_on for due in plan.due} == {date(2027, 4, 8)}
    assert {due.first_on for due in care_plan("hardwax_oil").due} == {None}


# Source: finishing.json, notes (drying oils self-heat in wadded cloth; evaporative finishes do not in the same way).
@pytest.mark.parametrize(
    ("finish_class", "warned"),
    [
        ("oil_urethane", True),
        ("hardwax_oil", True),
        ("drying_oil", True),
        ("shellac", False),
        ("waterborne_polyurethane", False),
    ],
)
def test_oily_cloths_are_warned_of_where_they_heat_up(finish_class, warned):
    assert ("Oily cloths" in [caution.title for caution in cautions_for(finish_class)]) is warned


def test_tipping_and_lifting_are_always_warned_of():
    titles = [caution.title for caution in cautions_for("a new class")]
    assert {"Tipping over", "Lifting", "Very dry and very damp rooms"} <= set(titles)


def test_the_weight_is_said_in_both_units():
    lifting = next(c.text for c in cautions_for("shellac", mass_kg=41.2) if c.title == "Lifting")
    assert "41 kg" in lifting
    assert "91 lb" in lifting
