"""How much of a board becomes waste: learned from what really came out, a plain average with its count."""

from dataclasses import dataclass

from shopapi.layouts.models import Outcome
from shopapi.workshops.models import Workshop

USUAL_WASTE_PCT = 30.0  # common practice, no source: until the workshop has noted its own


@dataclass(frozen=True)
class Waste:
    """The share of the wood that became waste, of so many boards."""

    species: str
    grade: str
    waste_pct: float
    count: int

    @property
    def words(self) -> str:
        of = f"{self.species}, {self.grade}" if self.grade else self.species
        if not self.count:
            return f"{self.waste_pct:.0f} % of {of} as waste: common practice, as nothing was noted of it here yet."
        boards = "one board" if self.count == 1 else f"{self.count} boards"
        average = "what was noted of" if self.count == 1 else "the plain average of"
        return f"{self.waste_pct:.0f} % of {of} became waste: {average} {boards}."


def learned(workshop: Workshop) -> list[Waste]:
    """By species and grade, as far as outcomes were noted."""
    shares: dict[tuple[str, str], list[float]] = {}
    for outcome in Outcome.objects.for_workshop(workshop).order_by("species", "grade", "created_at"):
        if isinstance(outcome, Outcome):
            shares.setdefault((outcome.species, outcome.grade), []).append(outcome.waste_pct)
    return [_average(species, grade, each) for (species, grade), each in shares.items()]


def expected(workshop: Workshop, species: str) -> Waste:
    """What to reckon with when buying: the average of all boards of a species, else what is common."""
    rows = Outcome.objects.for_workshop(workshop).filter(species=species)
    shares = [row.waste_pct for row in rows if isinstance(row, Outcome)]
    return _average(species, "", shares) if shares else Waste(species, "", USUAL_WASTE_PCT, 0)


def _average(species: str, grade: str, shares: list[float]) -> Waste:
    return Waste(species, grade, round(sum(shares) / len(shares), 1), len(shares))
