"""Loads the demo: an invented workshop in the middle of its work, into an empty database."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from io import BytesIO
from typing import Any, TypeVar
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from shopapi.boards.models import Board, Reading
from shopapi.boards.services import shot_keep, shot_work
from shopapi.commissions.models import Client, Commission, Part
from shopapi.craft.marks import Ellipse, Shape, bounds, kind_of, shape_to_dict
from shopapi.demo import scenario
from shopapi.demo.pictures import Portrait, Sitting, portray_all
from shopapi.demo.sawn import Flaw
from shopapi.demo.solver import start_compiling
from shopapi.finishing.models import Step
from shopapi.finishing.selectors import steps_of, turn_of_step
from shopapi.finishing.services import bench_entry_create, surface_plan_create
from shopapi.layouts.models import Layout
from shopapi.layouts.services import layout_work_out
from shopapi.marks.models import Mark
from shopapi.workshops.models import Member, Workshop
from shopapi.workshops.scoping import WorkshopOwned
from shopapi.workshops.services import member_create, workshop_create

PHOTO_PX = (2400, 1800)
Stage = Commission.Stage
Row = TypeVar("Row", bound=WorkshopOwned)


class DemoRefusedError(Exception):
    """The demo is not loaded; the message says what would work."""


@dataclass(frozen=True)
class Loaded:
    """What the demo consists of."""

    workshop: Workshop
    owner: Member
    helper: Member
    commissions: dict[str, Commission]
    boards: int
    shots: int
    marks: int


def load_demo() -> Loaded:
    """The whole demo, or nothing. Raises DemoRefusedError unless the database is empty."""
    if Workshop.objects.exists():
        raise DemoRefusedError(
            "There is a workshop here already, and the demo is loaded into an empty shop only. "
            "Choose another data folder for it, such as with open_shop --data DIR."
        )
    compiling = start_compiling()
    with transaction.atomic():
        owner = workshop_create(owner_name=scenario.OWNER[0], username=scenario.OWNER[1], **scenario.WORKSHOP)
        portraits = portray_all([_sitting(board) for board in scenario.BOARDS])
        return _Loading(owner).load(portraits, solver_ready=compiling.join)


def _sitting(board: scenario.DemoBoard) -> Sitting:
    return Sitting(
        key=board.tag,
        seed=board.seed,
        species=board.species,
        length_mm=board.length_in * scenario.IN,
        width_mm=board.width_in * scenario.IN,
        thickness_mm=board.thickness_mm,
        faces="AB",
        size_px=PHOTO_PX,
        drawn=board.drawn,
    )


class _Loading:
    """One loading: who it is for, and the rows made so far."""

    def __init__(self, owner: Member) -> None:
        self.owner = owner
        self.workshop = owner.workshop
        self.now = timezone.now()
        self.zone = ZoneInfo(self.workshop.time_zone)
        self.shots = 0
        self.marks = 0

    def load(self, portraits: Iterable[Portrait], *, solver_ready: Callable[[], None]) -> Loaded:
        helper = member_create(workshop=self.workshop, name=scenario.HELPER[0], username=scenario.HELPER[1])
        clients = {key: self._keep(Client(**values)) for key, values in scenario.CLIENTS.items()}
        boards = {board.tag: self._board(board) for board in scenario.BOARDS}
        for portrait in portraits:
            self._photographs(boards[portrait.key], portrait)
        commissions = {
            "desk": self._commission(
                scenario.DESK, clients["desk"], Stage.MAKING, 46, "4850", scenario.DESK_PARTS, ordered=-38
            ),
            "bench": self._commission(
                scenario.BENCH,
                clients["bench"],
                Stage.DELIVERED,
                -95,
                "1980",
                scenario.BENCH_PARTS,
                ordered=-190,
            ),
            "mirror": self._commission(
                scenario.MIRROR,
                clients["mirror"],
                Stage.FINISHING,
                12,
                "640",
                scenario.MIRROR_PARTS,
                ordered=-50,
            ),
            "bookcase": self._commission(
                scenario.BOOKCASE, clients["bookcase"], Stage.ENQUIRY, None, None, (), ordered=-2
            ),
        }
        self._finished(
            commissions["bench"], helper, first_day=-118, finish_class="oil_urethane", coats=3, final_grit=220
        )
        self._drying(commissions["mirror"], helper, finish_class="oil_urethane", coats=3, final_grit=220)
        surface_plan_create(
            workshop=self.workshop,
            commission=commissions["desk"],
            name="Oak and drawer fronts",
            finish_class="hardwax_oil",
            coats=2,
            start_grit=100,
            final_grit=180,
        )
        solver_ready()
        self._laid_out(commissions["bench"], [boards[b.tag] for b in scenario.BOARDS if b.used])
        for board in scenario.BOARDS:
            if board.used:
                boards[board.tag].status = Board.Status.USED
                boards[board.tag].save()
        return Loaded(self.workshop, self.owner, helper, commissions, len(boards), self.shots, self.marks)

    def _keep(self, row: Row) -> Row:
        row.workshop = self.workshop
        row.full_clean(exclude=["workshop"])
        row.save()
        return row

    def _day(self, days: int, *, hour: int) -> datetime:
        day = self.now.astimezone(self.zone) + timedelta(days=days)
        return day.replace(hour=hour, minute=0, second=0, microsecond=0)

    # Boards

    def _board(self, planned: scenario.DemoBoard) -> Board:
        board = self._keep(
            Board(
                tag=planned.tag,
                species=planned.species,
                length_mm=planned.length_in * scenario.IN,
                width_mm=planned.width_in * scenario.IN,
                thickness_mm=planned.thickness_mm,
                thickness_quarters=planned.quarters,
                price=Decimal(planned.price),
                source=planned.source,
                place=planned.place,
                flitch=planned.flitch,
                notes=planned.notes,
            )
        )
        weeks_ago = range(8 * (len(planned.moisture_pct) - 1), -1, -8)
        for weeks, moisture in zip(weeks_ago, planned.moisture_pct, strict=True):
            read_on = (self.now - timedelta(weeks=weeks, days=3)).date()
            self._keep(Reading(board=board, mc_pct=moisture, read_on=read_on, meter="Pin meter"))
        return board

    def _photographs(self, board: Board, portrait: Portrait) -> None:
        for face, (jpeg, corners) in portrait.shots.items():
            shot = shot_keep(member=self.owner, board=board, face=face, photo=BytesIO(jpeg), corners=corners)
            shot_work(shot=shot, suggest=False)  # its marks are set already
            self.shots += 1
        for flaws in _by_number(portrait.flaws):
            self._keep(_mark_of(board, flaws))
            self.marks += 1

    # Commissions

    def _commission(
        self,
        values: dict[str, Any],
        client: Client,
        stage: str,
        wanted_in_days: int | None,
        price: str | None,
        parts: tuple[scenario.DemoPart, ...],
        *,
        ordered: int,
    ) -> Commission:
        commission = self._keep(
            Commission(
                client=client,
                stage=stage,
                wanted_on=None if wanted_in_days is None else (self.now + timedelta(days=wanted_in_days)).date(),
                price=None if price is None else Decimal(price),
                **values,
            )
        )
        # The packet prints when a piece was ordered.
        Commission.objects.filter(pk=commission.pk).update(created_at=self._day(ordered, hour=10))
        for position, part in enumerate(parts, start=1):
            self._keep(
                Part(
                    commission=commission,
                    name=part.name,
                    quantity=part.quantity,
                    length_mm=part.length_in * scenario.IN,
                    width_mm=part.width_in * scenario.IN,
                    thickness_mm=part.thickness_in * scenario.IN,
                    species=part.species,
                    grain=part.grain,
                    show_faces=part.show_faces,
                    strip_count=part.strip_count,
                    note=part.note,
                    position=position,
                )
            )
        return commission

    def _laid_out(self, commission: Commission, boards: list[Board]) -> None:
        chosen = [str(board.pk) for board in boards]
        layout = Layout(workshop=self.workshop, commission=commission, boards=chosen, seconds=1.0)
        layout.save()
        layout_work_out(layout=layout)

    # Finish

    def _finished(self, commission: Commission, helper: Member, *, first_day: int, **chosen: Any) -> None:
        """A surface plan worked through to its end, at sensible hours, by both of them."""
        plan = surface_plan_create(workshop=self.workshop, commission=commission, **chosen)
        clock = self._day(first_day, hour=9)
        for number, step in enumerate(steps_of(plan)):
            turn = turn_of_step(step)
            clock = self._working_hour(max(clock, turn.earliest) if turn else clock)
            member = helper if step.kind in (Step.Kind.SAND, Step.Kind.DUST) else self.owner
            temp_c, rh_pct = 19.5 + number % 3 * 0.5, 44.0 + number % 4
            bench_entry_create(member=member, step=step, done_at=clock, temp_c=temp_c, rh_pct=rh_pct)
            clock += timedelta(minutes=step.hands_on_minutes + 10)

    def _drying(self, commission: Commission, helper: Member, **chosen: Any) -> None:
        """A surface plan whose first coat went on three hours ago."""
        steps = steps_of(surface_plan_create(workshop=self.workshop, commission=commission, **chosen))
        coat = next(i for i, step in enumerate(steps) if step.kind == Step.Kind.COAT)
        coated_at = self.now - timedelta(hours=3)
        for before, step in enumerate(reversed(steps[: coat + 1])):
            member = self.owner if before == 0 else helper
            done_at = coated_at - timedelta(minutes=50 * before)
            bench_entry_create(member=member, step=step, done_at=done_at, temp_c=20.0, rh_pct=43.0)

    def _working_hour(self, moment: datetime) -> datetime:
        local = moment.astimezone(self.zone)
        if local.hour >= 17:
            local = (local + timedelta(days=1)).replace(hour=8, minute=30)
        elif local.hour < 8:
            local = local.replace(hour=8, minute=30)
        return local


def _by_number(flaws: Iterable[Flaw]) -> list[list[Flaw]]:
    """Flaws that belong together: what one knot or split shows on both faces."""
    groups: dict[int, list[Flaw]] = {}
    for flaw in flaws:
        groups.setdefault(flaw.number, []).append(flaw)
    return list(groups.values())


def _mark_of(board: Board, flaws: list[Flaw]) -> Mark:
    """One mark for a flaw; where it goes through, large enough for what either face shows."""
    first = flaws[0]
    kind = kind_of(first.kind)
    return Mark(
        board=board,
        face=first.face,
        kind=first.kind,
        shape=shape_to_dict(_around([flaw.shape for flaw in flaws])),
        through=first.through and kind.blocks != "none",
        blocks=kind.blocks,
        note=first.note,
    )


def _around(shapes: list[Shape]) -> Shape:
    if len(shapes) == 1 or not all(isinstance(shape, Ellipse) for shape in shapes):
        return shapes[0]
    rects = [bounds(shape) for shape in shapes]
    x0, x1 = min(r.x0_mm for r in rects), max(r.x1_mm for r in rects)
    y0, y1 = min(r.y0_mm for r in rects), max(r.y1_mm for r in rects)
    return Ellipse((x0 + x1) / 2, (y0 + y1) / 2, (x1 - x0) / 2, (y1 - y0) / 2)
