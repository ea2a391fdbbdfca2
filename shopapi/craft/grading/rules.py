"""The clear-face rules as data: what each grade asks of a face and of the whole board."""

from collections.abc import Callable
from dataclasses import dataclass

from shopapi.craft.measures import MM_PER_FOOT, MM_PER_INCH

# One cutting unit is 1 inch by 1 foot.
UNIT_MM2 = MM_PER_INCH * MM_PER_FOOT

# A mark of these kinds takes clear wood away on the face it is on; sapwood and figure are clear wood by the rules,
# snipe is planed off. Season checks are admitted by the rules, but one worth marking is counted here.
NOT_CLEAR = frozenset(
    {"knot", "check", "split", "wane", "bark_pocket", "worm_holes", "pitch", "stain", "pith", "other"}
)
# On the reverse of a cutting these are not sound wood (LUMBER-RULES, sound cuttings, from memory).
NOT_SOUND = frozenset({"split", "wane", "bark_pocket", "pith", "other"})


@dataclass(frozen=True)
class Rule:
    """What a face must yield for a grade: twelfths of the surface measure, in so many cuttings of a least size.

    `least` holds (width [in], length [ft]) pairs, one of which each cutting reaches. Inside `extra_from` to `extra_to`
    surface measure one more cutting may be taken where `extra_twelfths` are reached.
    """

    grade: str
    twelfths: float
    cuts: Callable[[int], int]
    least: tuple[tuple[float, float], ...]
    extra_from: int
    extra_to: int
    extra_twelfths: float

    @property
    def sizes_mm(self) -> tuple[tuple[float, float], ...]:
        return tuple((width * MM_PER_INCH, length * MM_PER_FOOT) for width, length in self.least)

    def offers(self, measure: int) -> tuple[tuple[int, float], ...]:
        """The ways to reach the grade: (cuttings allowed, units needed) pairs for a surface measure."""
        ways = [(self.cuts(measure), self.twelfths * measure)]
        if self.extra_from <= measure <= self.extra_to:
            ways.append((self.cuts(measure) + 1, self.extra_twelfths * measure))
        return tuple(ways)


# LUMBER-RULES, standard grades: yields, numbers of cuttings (fractions dropped) and extra cuttings.
FAS = Rule("FAS", 10, lambda sm: min(sm // 4, 4), ((4, 5), (3, 7)), 6, 15, 11)
ONE_COMMON = Rule("1 Common", 8, lambda sm: min((sm + 1) // 3, 5), ((4, 2), (3, 3)), 3, 10, 9)
TWO_A_COMMON = Rule("2A Common", 6, lambda sm: min(sm // 2, 7), ((3, 2),), 2, 7, 8)

# Least boards: (width [in], length [ft]).
LEAST_BOARD = {"FAS": (6, 8), "F1F": (6, 8), "Selects": (4, 6), "1 Common": (3, 4), "2A Common": (3, 4)}
