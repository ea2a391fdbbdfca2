"""The sheet of scale cards, from the address a phone opens."""

import pytest

from tests.conftest import Person
from tests.printing.reading import PT_PER_MM, Printed


@pytest.mark.parametrize(("asked", "width_mm"), [("?paper=a4", 210), ("?paper=letter", 215.9), ("", 215.9)])
def test_scale_cards_come_on_the_paper_asked_for(asked: str, width_mm: float, new_workshop) -> None:
    person: Person = new_workshop(paper="letter")
    answer = person.client.get(f"/api/scale-card/{asked}", headers={"Accept": "text/html"})
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/pdf")
    page = Printed(answer.content).plumber.pages[0]
    assert float(page.width) / PT_PER_MM == pytest.approx(width_mm, abs=0.1)
    squares = [rect for rect in page.rects if abs(rect["width"] / PT_PER_MM - 60) < 0.01]
    assert len(squares) == 2


def test_other_paper_and_strangers_are_refused(maker: Person, client) -> None:
    answer = maker.client.get("/api/scale-card/?paper=a0")
    assert answer.status_code == 400
    assert answer.json()["errors"]["paper"]
    assert client.get("/api/scale-card/").status_code == 401
