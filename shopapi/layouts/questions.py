"""From a commission's parts and the rack's boards to questions for the solver, and back."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import ceil, floor
from typing import Any, cast

from shopapi.boards.models import Board
from shopapi.boards.selectors import boards_by_id, boards_in_rack
from shopapi.commissions.models import Commission, Part
from shopapi.commissions.selectors import parts_of
from shopapi.craft.layout import Flaw, LayoutError, Panel, Rules, Stock, Wanted
from shopapi.craft.layout.model import CleanFaces, Wish
from shopapi.craft.marks import blocked_rect, kind_of, parse_shape
from shopapi.craft.measures import Unit, format_length
from shopapi.craft.rough import Allowances, Grain, RoughSize, blanks_for, rough_size
from shopapi.layouts.models import Layout
from shopapi.layouts.tones import Tone, tones_of
from shopapi.marks.models import Mark
from shopapi.marks.selectors import marks_on
from shopapi.workshops.models import Workshop

MM_PER_QUARTER = 6.35
THICK_ENOUGH_MM = 0.3  # a tape is not read finer


@dataclass
class Need:
    """A part as the layout sees it, with how many blanks still lack a place."""

    part: Part
    rough: RoughSize
    left: int
    reason: str = ""

    @cached_property
    def key(self) -> str:
        return str(self.part.pk)

    @property
    def numbers(self) -> range:
        """Of its pieces that are still to be cut; where one blank holds several, of its blanks."""
        last = blanks_for(self.part.quantity, self.part.blank_holds)
        return range(last - blanks_for(self.part.quantity - self.part.cut_count, self.part.blank_holds) + 1, last + 1)

    @property
    def has_free_strips(self) -> bool:
        return self.part.strip_count == 0


@dataclass(frozen=True)
class Asked:
    """Parts and panels of one question."""

    wanted: tuple[Wanted, ...]
    panels: tuple[Panel, ...]

    @property
    def worth(self) -> int:
        return sum(w.value * w.quantity for w in self.wanted) + sum(p.value * p.count for p in self.panels)


@dataclass
class Rack:
    """All that one layout is about: what is needed, the boards to choose from, their marks."""

    needs: list[Need]
    boards: list[Board]
    marks: dict[str, list[Mark]]
    stocks: dict[str, Stock]


def rack_for(
    commission: Commission,
    *,
    boards: Iterable[str],
    excluded: Iterable[str],
    pinned: Iterable[dict[str, Any]],
    aim: str = Layout.Aim.YIELD,
) -> Rack:
    """What is still to be cut, and the boards for it: those named, or all of a wanted species, less those kept out.

    A board that carries a pinned piece is among them in any case. Raises LayoutError where nothing can be laid out.
    """
    workshop = commission.workshop
    parts = parts_of(commission)
    if not parts:
        raise LayoutError("This commission has no parts yet. Add parts, then lay them out.")
    needs = needs_of([part for part in parts if part.cut_count < part.quantity], workshop)
    if not needs:
        raise LayoutError("Every part of this commission is cut already.")
    species = {need.part.species for need in needs}
    wanted = ", ".join(sorted(species))
    found = boards_in_rack(workshop, species=species, ids=boards)
    if pins := {pin["board"] for pin in pinned} - {str(board.pk) for board in found}:
        found += [
            b for b in boards_by_id(workshop, pins).values() if b.status == Board.Status.IN_RACK and not b.gone_at
        ]
    if not found:
        raise LayoutError(f"There is no {wanted} in the rack to lay these parts on. Add boards first.")
    out = set(excluded) - {pin["board"] for pin in pinned}
    kept = [board for board in found if str(board.pk) not in out]
    if not kept:
        raise LayoutError(f"Every board of {wanted} is kept out of this layout. Let one of them in again.")
    marks = marks_on(kept)
    tones = tones_of(kept) if aim == Layout.Aim.LOOKS or any(need.part.together for need in needs) else {}
    stocks = {str(board.pk): stock_of(board, marks.get(str(board.pk), []), tones.get(str(board.pk))) for board in kept}
    return Rack(needs, kept, marks, stocks)


def allowances_of(workshop: Workshop) -> Allowances:
    return Allowances(
        length_mm=workshop.extra_length_mm,
        width_mm=workshop.extra_width_mm,
        thickness_mm=workshop.extra_thickness_mm,
        joint_loss_mm=workshop.joint_loss_mm,
    )


def rules_of(workshop: Workshop) -> Rules:
    trim = ceil(workshop.end_trim_mm)
    return Rules(kerf=ceil(workshop.kerf_mm), trim_left=trim, trim_right=trim, cut_type="trimmed")


def needs_of(parts: list[Part], workshop: Workshop) -> list[Need]:
    allowances = allowances_of(workshop)
    needs = []
    for part in parts:
        rough = rough_size(
            part.length_mm,
            part.width_mm,
            part.thickness_mm,
            allowances,
            grain=cast(Grain, part.grain),
            strip_count=part.strip_count or 1,
            blank_length_mm=part.blank_length_mm,
            blank_width_mm=part.blank_width_mm,
        )
        need = Need(part=part, rough=rough, left=0)
        need.left = len(need.numbers) * rough.count
        needs.append(need)
    return needs


def thick_enough(board: Board, need: Need) -> bool:
    return board.species == need.part.species and board.thickness_mm + THICK_ENOUGH_MM >= need.rough.thickness_mm


def length_in_words(length_mm: float, workshop: Workshop) -> str:
    return format_length(length_mm, cast(Unit, workshop.units), workshop.inch_denominator)


def why_no_board(need: Need, boards: list[Board], workshop: Workshop) -> str:
    same = [board for board in boards if board.species == need.part.species]
    if not same:
        return f"No {need.part.species} among these boards."
    thickest = max(board.thickness_mm for board in same)
    return (
        f"The thickest {need.part.species} here is {length_in_words(thickest, workshop)}; this needs "
        f"{length_in_words(need.rough.thickness_mm, workshop)} to mill from."
    )


def stock_of(board: Board, marks: list[Mark], tone: Tone | None = None) -> Stock:
    return Stock(
        id=str(board.pk),
        length=floor(board.length_mm),
        width=floor(board.width_mm),
        flaws=tuple(flaw for mark in marks if (flaw := flaw_of(mark, board)) is not None),
        flitch=board.flitch,
        tone=tone,
        figures=tuple(
            place
            for mark in marks
            if mark.kind == Mark.Kind.FIGURE and (place := _place_of(mark, board, 0)) is not None
        ),
    )


def flaw_of(mark: Mark, board: Board) -> Flaw | None:
    """The rectangle a mark keeps clear, with its margin, rounded outwards; None for marks that block nothing."""
    return None if mark.blocks == Mark.Blocks.NONE else _place_of(mark, board, kind_of(mark.kind).margin_mm)


def _place_of(mark: Mark, board: Board, margin_mm: float) -> Flaw | None:
    rect = blocked_rect(parse_shape(mark.shape), margin_mm=margin_mm)
    left, lower = max(0, floor(rect.x0_mm)), max(0, floor(rect.y0_mm))
    right, upper = min(ceil(board.length_mm), ceil(rect.x1_mm)), min(ceil(board.width_mm), ceil(rect.y1_mm))
    if right <= left or upper <= lower:
        return None
    return Flaw(
        x=left,
        y=lower,
        length=right - left,
        width=upper - lower,
        faces=frozenset("AB") if mark.through else frozenset(mark.face),
        blocks="show" if mark.blocks == Mark.Blocks.SHOW else "all",
    )


def asked_of(counts: Mapping[str, int], needs: Iterable[Need], workshop: Workshop) -> Asked:
    """Parts and panels as the solver is asked for them: so many of each need, none of those with no count."""
    chosen = [need for need in needs if counts.get(need.key, 0) > 0]
    return Asked(
        tuple(wanted_of(need, counts[need.key]) for need in chosen if not need.has_free_strips),
        tuple(panel_of(need, counts[need.key], workshop) for need in chosen if need.has_free_strips),
    )


def value_of(need: Need) -> int:
    """What one blank is worth to the layout, or one whole panel of free strips: its area in square centimetres."""
    return max(1, round(need.rough.length_mm * need.rough.width_mm / 100))


def wanted_of(need: Need, quantity: int) -> Wanted:
    return Wanted(
        id=need.key,
        length=need.rough.length_mm,
        width=need.rough.width_mm,
        quantity=quantity,
        value=value_of(need),
        clean_faces=cast(CleanFaces, need.part.show_faces),
        any_grain=need.part.grain == Part.Grain.ANY,
        together=need.part.together,
        wish=cast(Wish, need.part.wish),
    )


def panel_of(need: Need, count: int, workshop: Workshop) -> Panel:
    """A panel whose strips the solver chooses. Raises LayoutError where no strips allowed make it."""
    try:
        return Panel(
            id=need.key,
            length=need.rough.length_mm,
            width=need.rough.width_mm,
            count=count,
            value=value_of(need),
            strip_least=ceil(need.part.strip_least_mm),
            strip_most=floor(need.part.strip_most_mm),
            strip_loss=ceil(2 * workshop.joint_loss_mm),
            clean_faces=cast(CleanFaces, need.part.show_faces),
            together=need.part.together,
            wish=cast(Wish, need.part.wish),
        )
    except LayoutError as error:
        least, most = (length_in_words(mm, workshop) for mm in (need.part.strip_least_mm, need.part.strip_most_mm))
        raise LayoutError(
            f"No number of strips from {least} to {most} makes up {need.part.name}, which is sawn "
            f"{length_in_words(need.rough.width_mm, workshop)} wide. Allow wider or narrower strips."
        ) from error


def asked_as_json(workshop: Workshop, rack: Rack) -> dict[str, Any]:
    """What was asked, kept beside the answer: sizes as they were, rough sizes, marks, kerf and trims."""
    rules = rules_of(workshop)
    return {
        "kerf_mm": rules.kerf,
        "end_trim_mm": rules.trim_left,
        "parts": {
            need.key: {
                "name": need.part.name,
                "species": need.part.species,
                "quantity": need.part.quantity,
                "blank_holds": need.part.blank_holds,
                "strip_count": need.part.strip_count,
                "strip_loss_mm": ceil(2 * workshop.joint_loss_mm),
                "rough_length_mm": need.rough.length_mm,
                "rough_width_mm": need.rough.width_mm,
                "rough_thickness_mm": need.rough.thickness_mm,
                "length_mm": need.part.length_mm,
                "width_mm": need.part.width_mm,
                "thickness_mm": need.part.thickness_mm,
                "show_faces": need.part.show_faces,
            }
            for need in rack.needs
        },
        "boards": {
            str(board.pk): {
                "tag": board.tag,
                "species": board.species,
                "length_mm": board.length_mm,
                "width_mm": board.width_mm,
                "thickness_mm": board.thickness_mm,
                "marks": [
                    {
                        "kind": mark.kind,
                        "face": mark.face,
                        "through": mark.through,
                        "shape": mark.shape,
                        "blocks": mark.blocks,
                    }
                    for mark in rack.marks.get(str(board.pk), [])
                ],
            }
            for board in rack.boards
        },
    }
