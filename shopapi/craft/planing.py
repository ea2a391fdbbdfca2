"""Bringing rough boards to thickness over several sessions, with rests, so that they stay flat."""

from dataclasses import dataclass
from typing import Literal

from shopapi.craft.limits import OutOfRangeError, require, require_more_than_zero

# COMMON-PRACTICE, no source: the trade's own figures, all of them for the maker to change.
_SESSIONS, _REST_H, _LEAST_REST_H = 3, 24.0, 12.0
_LAST_PASS_MM = 0.5
_NEAR_SHOP_PCT = 1.0
_FLAT_MM_PER_M = 0.5

_CAUTION = "Guards on, pieces over 300 mm long on the jointer and planer, push blocks, hearing and dust protection."


@dataclass(frozen=True)
class Session:
    """One milling session: thickness before and after [mm], what each face gives [mm], and the rest before it [h]."""

    number: int
    from_mm: float
    to_mm: float
    each_face_mm: float
    rest_before_h: float


@dataclass(frozen=True)
class MillingPlan:
    """Sessions from rough to finished thickness, with what to say beside them."""

    sessions: tuple[Session, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class NextSession:
    """What to do after a rest: go on to size, plane once more and rest again, or take thicker stock."""

    verdict: Literal["to size", "one more session", "too thin", "wait for moisture"]
    spare_mm: float
    advice: str


def milling_plan(
    rough_mm: float, finished_mm: float, sessions: int = _SESSIONS, rest_h: float = _REST_H
) -> MillingPlan:
    """Sessions from rough to finished thickness: each takes about half of what is left, evenly from both faces.

    rough_mm, finished_mm: thickness [mm], rough above finished. sessions: 1 to 6. rest_h: between sessions [h], 0 to
    1000. The last session is light but takes at least 0.5 mm; where the spare wood does not allow that many sessions,
    fewer are planned and the cautions say so. Raises OutOfRangeError.
    Source: COMMON-PRACTICE, no source: three sessions, a day's rest, both faces alike.

    >>> [round(one.to_mm, 1) for one in milling_plan(27, 20).sessions]
    [23.0, 21.0, 20.0]
    """
    require_more_than_zero("Rough thickness", rough_mm, 500, "mm")
    require_more_than_zero("Finished thickness", finished_mm, 500, "mm")
    require("Sessions", sessions, 1, 6)
    require("Rest", rest_h, 0, 1000, "h")
    spare = rough_mm - finished_mm
    if spare < _LAST_PASS_MM:
        raise OutOfRangeError(
            f"Rough thickness {rough_mm:g} mm leaves {spare:g} mm over {finished_mm:g} mm. At least {_LAST_PASS_MM:g} "
            "mm must come off to clean both faces."
        )
    cautions = [_CAUTION]
    count = sessions
    while count > 1 and spare / (2**count - 1) < _LAST_PASS_MM:
        count -= 1
    if count < sessions:
        cautions.append(
            f"{spare:g} mm is enough for {count} sessions, not {sessions}. Thicker stock would stay flatter."
        )
    if rest_h < _LEAST_REST_H and count > 1:
        cautions.append(f"A rest under {_LEAST_REST_H:g} h shows little of what the wood will still do.")
    return MillingPlan(tuple(_halving(rough_mm, spare, count, rest_h)), tuple(cautions))


def after_rest(
    thickness_mm: float,
    finished_mm: float,
    moved_mm: float,
    length_mm: float,
    mc_pct: float | None = None,
    shop_mc_pct: float | None = None,
) -> NextSession:
    """What a rested board asks for, from how far it moved: bow, cup or twist against a straightedge or winding sticks.

    thickness_mm, finished_mm: now and wanted [mm]. moved_mm: greatest gap after the rest [mm], 0 or more. length_mm:
    over which it was measured [mm]. mc_pct, shop_mc_pct: a moisture reading and what the shop's air holds [% MC];
    more than one point apart, the wood is not ready whatever its shape. A gap over 0.5 mm a metre is planed out once
    more and rested again; planing a gap out takes its depth from either face. Raises OutOfRangeError.
    Source: COMMON-PRACTICE, no source: thresholds are this project's reading of careful practice.

    >>> after_rest(23, 20, 0.3, 1000).verdict, after_rest(23, 20, 1.0, 1000).verdict
    ('to size', 'one more session')
    """
    require_more_than_zero("Thickness", thickness_mm, 500, "mm")
    require_more_than_zero("Finished thickness", finished_mm, 500, "mm")
    require("Movement", moved_mm, 0, 500, "mm")
    require_more_than_zero("Length", length_mm, 20_000, "mm")
    spare = thickness_mm - finished_mm - 2 * moved_mm
    if spare < 0:
        return NextSession(
            "too thin", spare, "Flattening it would go under size: use it shorter, or take another board."
        )
    if mc_pct is not None and shop_mc_pct is not None:
        require("Moisture", mc_pct, 0, 100, "%")
        require("Shop's moisture", shop_mc_pct, 0, 30, "%")
        if abs(mc_pct - shop_mc_pct) > _NEAR_SHOP_PCT:
            advice = f"It reads {mc_pct:g} % and the shop holds {shop_mc_pct:g} %: let it settle within 1 point first."
            return NextSession("wait for moisture", spare, advice)
    if moved_mm <= _FLAT_MM_PER_M * length_mm / 1000:
        return NextSession("to size", spare, "It stayed flat: plane it to size, both faces alike.")
    if spare < _LAST_PASS_MM:
        return NextSession(
            "to size", spare, "It still moves, with no wood left for a rest: plane to size, use it soon."
        )
    return NextSession("one more session", spare, "It moved: flatten it, take both faces alike, and rest it again.")


def _halving(rough_mm: float, spare_mm: float, count: int, rest_h: float) -> list[Session]:
    """Shares 2^(n-1) : ... : 2 : 1 of the spare wood."""
    sessions, now = [], rough_mm
    for number in range(1, count + 1):
        taken = spare_mm * 2 ** (count - number) / (2**count - 1)
        sessions.append(Session(number, now, now - taken, taken / 2, rest_h if number > 1 else 0.0))
        now -= taken
    return sessions
