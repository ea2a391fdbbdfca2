"""Invented data that the tests of printed papers share: a white-oak writing desk with maple drawer fronts."""

from datetime import UTC, date, datetime, timedelta

from shopapi.craft.packet import (
    BoardBreakdown,
    BoardMark,
    BoardUsed,
    BreakdownData,
    FinishEntry,
    FinishRecord,
    LeftOut,
    Maker,
    Measures,
    MovementYear,
    PacketData,
    PanelMonth,
    PartLine,
    Picture,
    Piece,
    UseDates,
    care_plan,
    cautions_for,
    named_sections,
    ordered_cuts,
)

MAKER = Maker(
    "Undershaw Joinery",
    "Ines Undershaw",
    "+1 555 0142",
    "ines@undershaw.example",
    "14 Mill Lane\nNorthwick",
    "undershaw.example",
)
WIDTHS_MM = (756.4, 755.2, 754.9, 755.6, 757.3, 759.4, 761.2, 762.3, 762.4, 761.5, 759.8, 758.0)
RH_PCT = (30.0, 31.7, 36.3, 42.5, 48.8, 53.3, 55.0, 53.3, 48.8, 42.5, 36.3, 31.7)


def written_year() -> MovementYear:
    months = tuple(PanelMonth(n + 1, RH_PCT[n], 6.0 + RH_PCT[n] / 15, WIDTHS_MM[n]) for n in range(12))
    return MovementYear(
        "Desk top", "white oak", 762.0, 8.5, 0.0, months, "Northwick", 21.0, "coefficient method",
        ("Wood handbook FPL-GTR-190, Eq. 13-2 and table 13-5.",),
        ("Winter air below 6 % moisture is outside the table.",),
    )  # fmt: skip


def bench_log() -> tuple[FinishEntry, ...]:
    first = datetime(2026, 3, 2, 15, 30, tzinfo=UTC)
    steps = (
        "Sand P120",
        "Sand P150",
        "Sand P180",
        "Raise the grain",
        "Dust off",
        "Coat 1",
        "Abrade P400",
        "Coat 2",
        "Coat 3",
    )
    return tuple(
        FinishEntry(
            first + timedelta(hours=20 * n), what, "Along the grain" if "Sand" in what else "", "Ines",
            19.5 + n / 4, 44.0 + n,
            early_reason="The coat was dry to the nail test" if what == "Coat 3" else "",
        )
        for n, what in enumerate(steps)
    )  # fmt: skip


def pieces(tag: str) -> tuple[Piece, ...]:
    return (
        Piece(f"Desk top strip {tag}", 60, 12, 1525, 110),
        Piece("Left side", 1630, 12, 720, 160),
        Piece("Apron", 60, 128, 1200, 60),
        Piece("Drawer runner", 2380, 20, 480, 45),
    )


MARKS = (
    BoardMark("knot", ((1300, 130), (1340, 120), (1370, 140), (1350, 165), (1310, 160))),
    BoardMark("check", ((2880, 40), (2960, 52), (3000, 60)), open_line=True, width_mm=6),
    BoardMark("sapwood", ((0, 185), (1600, 190), (3000, 182), (3000, 205), (0, 205)), blocks="show"),
)


def board(tag: str, picture: Picture | None = None, length_mm: float = 3000.0, width_mm: float = 205.0) -> BoardUsed:
    return BoardUsed(tag, "white oak", length_mm, width_mm, 27.0, "Sawmill at Harrow Bridge", picture, pieces(tag))


PARTS = (
    PartLine("Desk top", 1, 1500, 762, 22, "white oak", 7),
    PartLine("Left side", 1, 690, 560, 20, "white oak", 4),
    PartLine("Right side", 1, 690, 560, 20, "white oak", 4),
    PartLine("Leg", 4, 720, 45, 45, "white oak"),
    PartLine("Drawer front", 3, 420, 110, 19, "hard maple"),
    PartLine("Apron", 2, 1180, 90, 20, "white oak"),
)
FINISH = "oil_urethane"
USE = UseDates(
    date(2026, 3, 9), date(2026, 3, 12), date(2026, 4, 8),
    "Three days after the last coat for light use, thirty for full use, in the air that the bench log shows.",
    "Makers' data sheets by generic class; the label of the product comes first.",
)  # fmt: skip


def packet_data(**changes: object) -> PacketData:
    values: dict[str, object] = {
        "maker": MAKER,
        "piece": "Writing desk",
        "made_on": date(2026, 3, 10),
        "client": "Rowan Ashdown",
        "description": "A desk for two people who write letters, in white oak, with three drawers in maple.",
        "reference": "D7-41",
        "ordered_on": date(2025, 11, 3),
        "home_place": "Northwick",
        "measures": Measures("inch", 16),
        "boards": (board("W7"), board("W9")),
        "parts": PARTS,
        "finish": FinishRecord("wiping oil-and-urethane finish", bench_log()),
        "use": USE,
        "care": care_plan(FINISH, USE.full_use_on),
        "movement": written_year(),
        "cautions": cautions_for(FINISH, mass_kg=41.2, full_use_on=USE.full_use_on),
        "warnings": ("Two boards have no moisture reading from this month.",),
    }
    return PacketData(**(values | changes))  # type: ignore[arg-type]


KERF = 3
NAMES = {"top": "Desk top strip", "side": "Left side", "rail": "Rail"}


def node(x, y, length, width, **rest):
    return {"x": x, "y": y, "length": length, "width": width, **rest}


# A board of 2400 x 200: two sections; the first ripped in three, its middle strip crosscut in two.
STRIP = node(0, 103, 1500, 60, cut="crosscut", at=[700], pieces=[
    node(0, 103, 700, 60, part="rail"), node(703, 103, 700, 60, part="rail"), node(1406, 103, 94, 60, part=None),
])  # fmt: skip
SECTION = node(0, 0, 1500, 200, cut="rip", at=[100, 163], pieces=[
    node(0, 0, 1500, 100, part="top"), STRIP, node(0, 166, 1500, 34, part=None),
])  # fmt: skip
TREE = node(0, 0, 2400, 200, cut="crosscut", at=[1500], pieces=[SECTION, node(1503, 0, 897, 200, part="side")])


def breakdown() -> BreakdownData:
    pieces = (
        Piece("Desk top strip", 0, 0, 1500, 100),
        Piece("Rail", 0, 103, 700, 60),
        Piece("Rail", 703, 103, 700, 60),
        Piece("Left side", 1503, 0, 897, 200),
    )
    board = BoardBreakdown(
        "W7",
        "white oak",
        2400.0,
        200.0,
        27.0,
        "upper rack",
        None,
        MARKS,
        pieces,
        ordered_cuts(TREE, NAMES, KERF),
        named_sections(TREE),
    )
    return BreakdownData(
        "Undershaw Joinery", "Writing desk", date(2026, 2, 1), 3.0, 25.0, (board,),
        (LeftOut("Back panel", 1, "No board of white oak is wide enough: 40 mm too wide."),),
        measures=Measures("inch", 16),
    )  # fmt: skip
