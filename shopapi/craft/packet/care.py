"""How to look after a finish, and what to beware of. All of it common practice, no source, unless a line says so."""

from dataclasses import dataclass
from datetime import date, timedelta

from shopapi.craft.finish import FINISH_CLASSES
from shopapi.craft.packet.packet import CareDue, CarePlan, Caution

YEAR = timedelta(days=365)

EVERY_DAY = (
    "Dust it with a soft, dry cloth along the grain. For more than dust, wring a cloth out in clear water until it no "
    "longer drips, wipe, and dry the wood at once.",
    "Put something under whatever is hot, wet or rough, and lift things instead of sliding them.",
    "Keep it out of long hours of direct sun and an arm's length from radiators, stoves and air vents. Light changes "
    "the colour of every wood; leave nothing lying in one place for the first months.",
    "No scouring powder, bleach or ammonia, and no polish with silicone: it makes every later repair harder.",
)
SPILL = "Blot a spill straight away and let the place dry before anything stands on it again."


@dataclass(frozen=True)
class _Habits:
    accident: str
    repair: str
    renewal: str
    every: str


_HABITS = {
    "oil_urethane": _Habits(
        "A pale ring from damp usually fades within days. If one stays, ask us before you rub it with anything.",
        "Fine scratches are rubbed back lightly by hand and wiped with a thin coat of the same finish; the new coat "
        "does not melt into the old one, so the surface must be clean and dulled first.",
        "Look along the top against the light. Where it has gone dull, it is time for another thin coat.",
        "every year",
    ),
    "waterborne_polyurethane": _Habits(
        "A pale ring from damp usually fades within days. If one stays, ask us before you rub it with anything.",
        "A worn place is cleaned, dulled evenly and coated again over the whole surface up to an edge; small touch-ups "
        "stay visible.",
        "Look along the top against the light for places worn through to the wood.",
        "every year",
    ),
    "shellac": _Habits(
        "Alcohol dissolves shellac: blot perfume, hand gel, wine or spirits at once and do not rub. Hot cups leave "
        "pale rings; most can be taken out in the workshop.",
        "New shellac melts into the old, so that nearly every mark can be made good without stripping.",
        "Look along the top against the light for rings and dull places.",
        "every year",
    ),
    "hardwax_oil": _Habits(
        "A dull or dark ring means that the place is thirsty. Let it dry fully; then it can be oiled again by itself.",
        "A worn place is cleaned, rubbed lightly along the grain and oiled again very thinly; every trace that the "
        "wood does not take is wiped off.",
        "Put a few drops of water on the top. If they no longer bead, renew the oil on the places used most.",
        "every year",
    ),
    "lacquer": _Habits(
        "Nail polish remover and strong alcohol soften lacquer: blot them at once and do not rub.",
        "Small marks can be polished out or melted in again in the workshop; it is sprayed, so please do not coat it "
        "at home.",
        "Look along the top against the light for rings and fine cracks.",
        "every year",
    ),
    "drying_oil": _Habits(
        "Oil leaves the wood open: water and wine mark it within minutes. A dark ring often comes out with a light rub "
        "along the grain and fresh oil.",
        "Rub the place lightly along the grain, oil it very thinly and wipe off every trace that the wood does not "
        "take.",
        "Oil it thinly again where it looks dry.",
        "twice in the first year, then every year",
    ),
}
_HABITS["oil_polyurethane"] = _HABITS["waterborne_polyurethane"]
_PLAIN = _Habits(
    "Ask us before you treat a stain or a ring.",
    "Ask us before anything is put on it.",
    "Look it over in good light and tell us what you see.",
    "every year",
)


def care_plan(finish_class: str, full_use_on: date | None = None) -> CarePlan:
    """The care of a finish of one generic class; an unknown class gets advice that suits any.

    finish_class: a key of `craft.finish`. full_use_on: when the finish has cured; the first look is due a year later.
    Source: COMMON-PRACTICE.
    """
    habits = _HABITS.get(finish_class, _PLAIN)
    first_on = full_use_on + YEAR if full_use_on else None
    return CarePlan(
        every_day=EVERY_DAY,
        accidents=(SPILL, habits.accident),
        due=(
            CareDue(habits.renewal, first_on, habits.every),
            CareDue(
                "Check that feet stand level and that screws and fittings are snug; do not force them.",
                first_on,
                "every year",
            ),
        ),
        repair=habits.repair,
        source="Common practice of the trade. The label of the product in hand comes first.",
    )


def cautions_for(
    finish_class: str, *, mass_kg: float | None = None, full_use_on: date | None = None
) -> tuple[Caution, ...]:
    """What a client must be warned of: tipping, lifting, dry and damp air, a fresh finish, oily rags.

    mass_kg: the piece's reckoned mass [kg], if known. full_use_on: when the finish has cured. Fires of oily rags:
    Source: FINISH-SHEETS; the rest: COMMON-PRACTICE.
    """
    cautions = [
        Caution(
            "Tipping over",
            "Furniture can tip when drawers or doors are open, when something heavy hangs on one side, or when a child "
            "climbs on it. If this piece has drawers, doors or shelves, fix it to the wall with hardware made for that "
            "wall and follow its instructions and the rules where you live. Never let anyone climb or sit on it unless "
            "it was built as a seat.",
        ),
        Caution("Lifting", _lifting(mass_kg)),
        Caution(
            "Very dry and very damp rooms",
            "Do not stand it in a cellar, a garage, an unheated room or against a damp wall, nor close to a heater. "
            "Air far drier or damper than the figures in these papers moves the wood further than it was built for.",
        ),
    ]
    if full_use_on:
        cautions.append(
            Caution(
                "A fresh finish",
                "Until the day of full use, cover nothing: no cloths, no mats, nothing that stands for days. Vapour "
                "must get out. If the smell troubles you, open the windows and keep children and pets away from it.",
            )
        )
    if finish_class in FINISH_CLASSES and FINISH_CLASSES[finish_class].rag_hazard == "self-heating":
        caution = (
            "Cloths wet with oil finish heat up by themselves as they dry and can catch fire within hours. If you "
            "ever oil or coat this piece, spread used cloths out flat outdoors until they are stiff, or drown them in "
            "water in a metal can with a lid, and get rid of them as your local rules and the label say."
        )
        cautions.append(Caution("Oily cloths", caution))
    return tuple(cautions)


def _lifting(mass_kg: float | None) -> str:
    weight = (
        f"It weighs about {mass_kg:.0f} kg ({mass_kg / 0.45359237:.0f} lb), reckoned from its parts. "
        if mass_kg
        else ""
    )
    return (
        f"{weight}Carry it with two people or more, by its frame and never by its top, its drawers or a moulding. Take "
        "drawers out first. Lift it clear of the floor: dragging it strains the joints."
    )
