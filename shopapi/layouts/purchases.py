"""The smallest purchase that would place what found no place."""

from math import ceil
from typing import Any

from shopapi.craft.layout import LayoutError, Problem, Stock, purchase_for
from shopapi.craft.measures import volume_board_feet
from shopapi.layouts import questions
from shopapi.layouts.questions import MM_PER_QUARTER, THICK_ENOUGH_MM, Need, Rack
from shopapi.layouts.waste import Waste, expected
from shopapi.workshops.models import Workshop

LEAST_QUARTERS = 4  # thinner lumber is not sold rough; common practice, no source
USUAL_BOARD = Stock("bought", 2440, 150)  # where the rack has none of the species: 8 feet; common practice, no source
MOST_WASTE_PCT = 95


class Purchases:
    """Reckons purchases of one layout; what is learned of a species is looked up once."""

    def __init__(self, workshop: Workshop, rack: Rack) -> None:
        self._workshop = workshop
        self._waste: dict[str, Waste] = {}
        self._longest: dict[str, Stock] = {}
        for board in rack.boards:
            stock, held = rack.stocks[str(board.pk)], self._longest.get(board.species)
            if held is None or stock.length > held.length:
                self._longest[board.species] = stock

    def of(self, need: Need) -> dict[str, Any] | None:
        """Wood for the pieces of a part that are left; None where no strips allowed make its panel."""
        species = need.part.species
        if species not in self._waste:
            self._waste[species] = expected(self._workshop, species)
        waste = self._waste[species]
        stock = self._longest.get(species, USUAL_BOARD)
        try:
            asked = questions.asked_of({need.key: need.left}, [need], self._workshop)
            problem = Problem((stock,), asked.wanted, questions.rules_of(self._workshop), panels=asked.panels)
            share = min(waste.waste_pct, MOST_WASTE_PCT) / 100
            least = purchase_for(problem, need.key, need.left, waste_share=share)
        except LayoutError:
            return None
        thickness_mm = need.rough.thickness_mm
        quarters = max(LEAST_QUARTERS, ceil((thickness_mm - THICK_ENOUGH_MM) / MM_PER_QUARTER))
        return {
            "board_feet": round(volume_board_feet(least.area_mm2, 1, quarters * MM_PER_QUARTER), 1),
            "m3": round(least.area_mm2 * thickness_mm / 1e9, 4),
            "least_clear_length_mm": least.least_clear_length,
            "least_clear_width_mm": least.least_clear_width,
            "thickness_mm": thickness_mm,
            "species": species,
            "waste_pct": waste.waste_pct,
            "waste_words": waste.words,
        }
