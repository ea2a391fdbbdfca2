"""A panel's year in numbers, and in sentences a client reads."""

from calendar import month_name
from collections.abc import Sequence
from dataclasses import dataclass

from shopapi.craft.moisture import Season
from shopapi.craft.movement import HomeMonth, width_through_year
from shopapi.craft.packet.common import Measures
from shopapi.craft.sources import source

SAME_MM = 0.05


@dataclass(frozen=True)
class PanelMonth:
    """A month of the home's year: its air and the width the panel then has."""

    month: int
    rh_pct: float
    mc_pct: float
    width_mm: float

    @property
    def name(self) -> str:
        """The month in words. Source: OWN."""
        return month_name[self.month]


@dataclass(frozen=True)
class MovementYear:
    """How wide a panel is from January to December in the home it goes to.

    width_mm: as built, at built_mc_pct. ring_angle_deg: 0 flatsawn (moves most) to 90 quartersawn. followed_swing_mm:
    the swing if the wood followed the air without any lag, where the months are reckoned with one.
    """

    panel: str
    species: str
    width_mm: float
    built_mc_pct: float
    ring_angle_deg: float
    months: tuple[PanelMonth, ...]
    place: str = ""
    temp_c: float | None = None
    method: str = ""
    sources: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    followed_swing_mm: float | None = None

    def __post_init__(self) -> None:
        if [each.month for each in self.months] != list(range(1, 13)):
            raise ValueError("A year of movement needs its twelve months, January to December.")

    @property
    def narrowest(self) -> PanelMonth:
        """The month in which the panel is narrowest. Source: OWN, the least of the twelve."""
        return min(self.months, key=lambda month: month.width_mm)

    @property
    def widest(self) -> PanelMonth:
        """The month in which the panel is widest. Source: OWN, the greatest of the twelve."""
        return max(self.months, key=lambda month: month.width_mm)

    @property
    def driest(self) -> PanelMonth:
        """The month with the driest air. Source: OWN, the least of the twelve."""
        return min(self.months, key=lambda month: month.rh_pct)

    @property
    def dampest(self) -> PanelMonth:
        """The month with the dampest air. Source: OWN, the greatest of the twelve."""
        return max(self.months, key=lambda month: month.rh_pct)

    @property
    def swing_mm(self) -> float:
        """Widest less narrowest [mm]. Source: OWN."""
        return self.widest.width_mm - self.narrowest.width_mm


def movement_year(
    panel: str,
    wood: str,
    width_mm: float,
    built_mc_pct: float,
    home: Sequence[HomeMonth],
    place: str = "",
    ring_angle_deg: float = 0.0,
    season: Season | None = None,
) -> MovementYear:
    """A panel's year in a home, as it is printed; arguments, limits and errors as for `width_through_year`.

    panel: the part's name. place: where the home is, if it may be printed. season: the wood's own moisture, which
    lags behind the air, as `seasonal_moisture` gives it; without it the wood follows the air fully.
    Source: WOOD-HANDBOOK, chapter 13, through `width_through_year`.
    """
    followed = width_through_year(width_mm, wood, built_mc_pct, home, ring_angle_deg)
    year = followed
    if season:
        year = width_through_year(width_mm, wood, built_mc_pct, home, ring_angle_deg, season.monthly_pct)
    months = tuple(PanelMonth(each.month, each.rh_pct, each.mc_pct, each.width_mm) for each in year.months)
    return MovementYear(
        panel,
        wood,
        width_mm,
        built_mc_pct,
        ring_angle_deg,
        months,
        place,
        home[0].temp_c,
        year.method,
        (
            source("WOOD-HANDBOOK").title,
            *((source("CRANK-1975").title,) if season else ()),
            f"Method: {year.method}.",
        ),
        (*year.cautions, *(season.cautions if season else ())),
        followed.swing_mm if season else None,
    )


def describe_year(year: MovementYear, measures: Measures) -> tuple[str, ...]:
    """The year in paragraphs, every number written as the paper writes lengths.

    Source: OWN, wording; the numbers are those of `year`.
    """
    return (_what_it_is(year, measures), _what_happens(year, measures), _why_it_is_right(), _assumption(year, measures))


def _what_it_is(year: MovementYear, measures: Measures) -> str:
    return (
        f"The widest piece of solid wood here is the {_lower_first(year.panel)}: {measures.length(year.width_mm)} of "
        f"{year.species} across the grain, built at {year.built_mc_pct:.1f} % moisture. Wood takes up water from damp "
        "air and gives it back to dry air. It grows and shrinks across the grain as it does so, and hardly at all "
        "along it."
    )


def _what_happens(year: MovementYear, measures: Measures) -> str:
    home = f"In {year.place}, we" if year.place else "We"
    air = (
        f"{home} reckon with indoor air between {year.driest.rh_pct:.0f} % humidity in {year.driest.name} and "
        f"{year.dampest.rh_pct:.0f} % in {year.dampest.name}."
    )
    if year.swing_mm < SAME_MM:
        return f"{air} In air that even, the {_lower_first(year.panel)} keeps its width all year."
    behind = "" if year.narrowest.month == year.driest.month else ", some weeks behind"
    return (
        f"{air} The {_lower_first(year.panel)} follows{behind}: narrowest in {year.narrowest.name}, about "
        f"{measures.change(year.narrowest.width_mm)}, and widest in {year.widest.name}, about "
        f"{measures.change(year.widest.width_mm)}. Between the two lie about {measures.change(year.swing_mm)}"
        f"{_also(year.swing_mm, measures)}, every year, for as long as it is wood."
    )


def _also(length_mm: float, measures: Measures) -> str:
    other = Measures("metric") if measures.unit == "inch" else Measures("inch", 32)
    return f" ({other.change(length_mm)})"


def _why_it_is_right() -> str:
    return (
        "This is not a fault and nothing stops it; the finish slows it down. A line that opens beside a panel when the "
        "heating is on, and closes in summer, is the piece doing what it was built to do. Please do not fill such a "
        "line, and do not screw or wedge anything across the grain."
    )


def _assumption(year: MovementYear, measures: Measures) -> str:
    if year.ring_angle_deg <= 30:
        cut = "as if every board were flatsawn, which moves most"
    elif year.ring_angle_deg >= 60:
        cut = "for quartersawn boards, which move least"
    else:
        cut = "for boards with growth rings at a slant"
    most = ""
    if year.followed_swing_mm is not None:
        swing = f"{measures.change(year.followed_swing_mm)}{_also(year.followed_swing_mm, measures)}"
        most = f"Thickness and finish hold it back; bare and thin it would swing by {swing}. "
    return (
        f"Reckoned {cut} (ring angle {year.ring_angle_deg:.0f}°). {most}It is an estimate from published averages of "
        "the species and from the air we expect in the room: your own boards and your own winter will differ a little."
    )


def _lower_first(name: str) -> str:
    """A part's name inside a sentence; names that are shouted or signs stay as they are."""
    return name[:1].lower() + name[1:] if name[1:2].islower() else name
