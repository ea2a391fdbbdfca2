"""The demo's invented workshop as plain data: people, commissions, parts, boards. Nobody in it is real."""

from dataclasses import dataclass, field
from typing import Any

IN = 25.4


@dataclass(frozen=True)
class DemoPart:
    """A part line; finished sizes in inches, as they stand in the maker's notebook."""

    name: str
    quantity: int
    length_in: float
    width_in: float
    thickness_in: float
    species: str
    show_faces: str = "one"
    strip_count: int = 1
    grain: str = "length"
    note: str = ""


@dataclass(frozen=True)
class DemoBoard:
    """A board in the rack; sizes in inches as taped. `drawn` goes to sawn.draw_board."""

    tag: str
    seed: int
    species: str
    length_in: float
    width_in: float
    quarters: int
    flitch: str
    place: str
    source: str
    price: int
    moisture_pct: tuple[float, ...]
    drawn: dict[str, Any] = field(default_factory=dict)
    notes: str = ""
    used: bool = False

    @property
    def thickness_mm(self) -> float:
        """Rough stock runs a touch over its quarters once dried. Common practice, no source."""
        return round(self.quarters * IN / 4 + 1.2, 1)


WORKSHOP = {
    "name": "Hob & Lantern Furniture",
    "maker_name": "Marta Quillfeather",
    "phone": "+1 612 555 0143",
    "email": "marta@hobandlantern.example",
    "address": "14 Kiln Street\nMinneapolis, Minnesota",
    "website": "hobandlantern.example",
    "units": "inch",
    "paper": "letter",
    "currency": "USD",
    "time_zone": "America/Chicago",
}
OWNER = ("Marta Quillfeather", "marta")
HELPER = ("Joss Fennimore", "joss")

CLIENTS = {
    "desk": {
        "name": "Odile Brannick-Sorrel",
        "email": "odile@brannick-sorrel.example",
        "phone": "+1 612 555 0178",
        "address": "27 Frostline Avenue\nMinneapolis, Minnesota",
        "notes": "Works from home, left-handed. Reach her after six.",
    },
    "bench": {
        "name": "Tobiah Larkmoor",
        "email": "tobiah@larkmoor.example",
        "phone": "+1 651 555 0112",
        "address": "9 Ferry Hill Road\nSaint Paul, Minnesota",
        "notes": "",
    },
    "mirror": {
        "name": "Ines Halloway-Bright",
        "email": "ines@halloway-bright.example",
        "phone": "+1 507 555 0166",
        "address": "301 Quarry Lane\nRochester, Minnesota",
        "notes": "Collects it herself.",
    },
    "bookcase": {
        "name": "Fenwick Amberley",
        "email": "fenwick@amberley.example",
        "phone": "+1 218 555 0190",
        "address": "88 Harbor Steps\nDuluth, Minnesota",
        "notes": "Found us through Tobiah's bench.",
    },
}

_OAK, _MAPLE, _CHERRY, _WALNUT = "white oak", "sugar maple", "black cherry", "black walnut"

DESK_PARTS = (
    DemoPart("Top", 1, 54, 26, 0.8125, _OAK, strip_count=5, note="Best-matched wood; grain along the 54"),
    DemoPart("Leg", 4, 28.5, 1.75, 1.75, _OAK, "both"),
    DemoPart("Back apron", 1, 48, 5, 0.8125, _OAK, "both"),
    DemoPart("Side apron", 2, 21, 5, 0.8125, _OAK),
    DemoPart("Upper front rail", 1, 48, 1.75, 0.8125, _OAK, "none"),
    DemoPart("Lower front rail", 1, 48, 1.75, 0.8125, _OAK),
    DemoPart("Drawer divider", 2, 5, 2.25, 0.8125, _OAK),
    DemoPart("Stretcher", 1, 46.5, 2.25, 0.8125, _OAK, "both"),
    DemoPart("Side stretcher", 2, 20.5, 2, 0.8125, _OAK, "both"),
    DemoPart("Drawer runner", 6, 20, 1.25, 0.75, _OAK, "none"),
    DemoPart("Gallery shelf", 1, 48, 8, 0.75, _OAK, "both", strip_count=2),
    DemoPart("Gallery end", 2, 8, 5.5, 0.75, _OAK, "both"),
    DemoPart("Gallery back", 1, 47, 5.5, 0.625, _OAK),
    DemoPart("Drawer front", 3, 14.5, 4.25, 0.8125, _MAPLE, note="Cut in a row from the curly board"),
    DemoPart("Drawer side", 6, 20, 3.75, 0.5, _MAPLE),
    DemoPart("Drawer back", 3, 14, 3.25, 0.5, _MAPLE, "none"),
    DemoPart("Drawer bottom", 3, 19.5, 14, 0.375, _MAPLE, strip_count=3),
    DemoPart("Cable tray", 1, 30, 4, 0.5, _MAPLE, "none"),
)
BENCH_PARTS = (
    DemoPart("Seat", 1, 44, 13, 1, _WALNUT, strip_count=2),
    DemoPart("Leg", 4, 16.5, 1.625, 1, _WALNUT, "both"),
    DemoPart("Rail", 2, 38, 3, 0.875, _WALNUT),
    DemoPart("End rail", 2, 9.5, 3, 0.875, _WALNUT),
    DemoPart("Shoe shelf slat", 4, 39, 1.75, 0.625, _WALNUT),
)
MIRROR_PARTS = (
    DemoPart("Stile", 2, 36, 2.5, 0.875, _CHERRY),
    DemoPart("Top rail", 1, 19, 3.5, 0.875, _CHERRY),
    DemoPart("Bottom rail", 1, 19, 3, 0.875, _CHERRY),
    DemoPart("Ledge", 1, 24, 3.25, 0.75, _CHERRY, "both"),
)

_UP, _DOWN = "Rack 2, upper", "Rack 2, lower"
_YARD = "Pinebarrow Lumber, lot 7"
_MILL = "Old Sawpit Mill"

BOARDS = (
    DemoBoard("W1", 101, _OAK, 120.5, 8.25, 4, "W", _UP, _MILL, 74, (9.4, 7.6), {"sawn": "flat", "knots": 0}),
    DemoBoard("W2", 102, _OAK, 121, 8, 4, "W", _UP, _MILL, 72, (9.2, 7.5), {"sawn": "flat", "knots": 1}),
    DemoBoard("W3", 103, _OAK, 120, 8.5, 4, "W", _UP, _MILL, 76, (9.5, 7.7), {"sawn": "flat", "sap": True}),
    DemoBoard("W4", 104, _OAK, 96, 7.75, 4, "W", _UP, _MILL, 54, (7.6,), {"sawn": "flat", "knots": 3}),
    DemoBoard("Q1", 105, _OAK, 100, 7.5, 4, "Q", _DOWN, _YARD, 71, (7.4,), {"sawn": "quarter", "knots": 0}),
    DemoBoard(
        "Q2",
        106,
        _OAK,
        99.5,
        7.25,
        4,
        "Q",
        _DOWN,
        _YARD,
        69,
        (7.5,),
        {"sawn": "quarter", "knots": 0, "wane": True},
        "Bark on the upper edge; the fleck is worth it.",
    ),
    DemoBoard("W5", 107, _OAK, 84, 7, 4, "", _DOWN, _YARD, 43, (7.8,), {"sawn": "rift", "knots": 1}),
    DemoBoard("W6", 108, _OAK, 72, 6.5, 4, "", "By the door", _YARD, 32, (8.1,), {"sawn": "flat", "worm_holes": True}),
    DemoBoard("L1", 109, _OAK, 66, 6.5, 8, "", "Floor, left", _MILL, 62, (9.8, 8.2), {"sawn": "rift", "knots": 1}),
    DemoBoard("L2", 110, _OAK, 62, 6, 8, "", "Floor, left", _MILL, 55, (9.9, 8.3), {"sawn": "rift", "knots": 0}),
    DemoBoard(
        "M1",
        111,
        _MAPLE,
        84,
        7.5,
        4,
        "M",
        "Rack 1",
        _YARD,
        64,
        (7.2,),
        {"knots": 0, "curl": True, "streak": False, "sawn": "flat"},
        "Curly. Keep for the drawer fronts.",
    ),
    DemoBoard("M2", 112, _MAPLE, 86, 7.25, 4, "M", "Rack 1", _YARD, 47, (7.3,), {"knots": 1, "curl": False}),
    DemoBoard("M3", 113, _MAPLE, 84, 6.75, 4, "M", "Rack 1", _YARD, 44, (7.3,), {"curl": False, "streak": True}),
    DemoBoard("M4", 114, _MAPLE, 98, 7.5, 4, "", "Rack 1", _YARD, 55, (7.6,), {"knots": 1, "curl": False}),
    DemoBoard(
        "M5", 118, _MAPLE, 97, 8, 4, "M", "Rack 1", _YARD, 63, (7.2,), {"knots": 0, "curl": False, "sawn": "flat"}
    ),
    DemoBoard("C1", 115, _CHERRY, 72, 7, 4, "", "Rack 3", _MILL, 49, (7.5,), {"sap": True, "knots": 1}),
    DemoBoard("N1", 116, _WALNUT, 90, 8.5, 5, "N", "", _MILL, 118, (8.0, 7.1), {"sap": True, "knots": 1}, used=True),
    DemoBoard("N3", 119, _WALNUT, 84, 7, 5, "N", "", _MILL, 79, (8.1, 7.0), {"sawn": "rift", "knots": 0}, used=True),
    DemoBoard("N2", 117, _WALNUT, 88, 7.5, 5, "N", "", _MILL, 102, (8.1, 7.0), {"sawn": "flat", "knots": 0}, used=True),
)

DESK = {
    "title": "Writing desk for Odile",
    "piece": "Writing desk in white oak, 54 by 26 in, with a low gallery at the back and three drawers fronted in "
    "curly maple.",
    "home_place": "Minneapolis, Minnesota",
    "home_rh_dry_pct": 25.0,
    "home_rh_damp_pct": 55.0,
    "notes": "Room for two monitors; cable tray under the top at the back left. Fronts from one board, grain running "
    "across all three.",
}
BENCH = {
    "title": "Hall bench with shoe shelf",
    "piece": "Bench in black walnut, 44 in long, with a slatted shelf for shoes.",
    "home_place": "Saint Paul, Minnesota",
    "home_rh_dry_pct": 28.0,
    "home_rh_damp_pct": 55.0,
    "notes": "Delivered and paid. Tobiah may want a matching coat rack: two walnut offcuts kept.",
}
MIRROR = {
    "title": "Mirror frame with ledge",
    "piece": "Frame in black cherry for the client's own glass, with a ledge for keys.",
    "home_place": "Rochester, Minnesota",
    "home_rh_dry_pct": 28.0,
    "home_rh_damp_pct": 58.0,
    "notes": "Glass is 18 by 30, a quarter thick; she brings it.",
}
BOOKCASE = {
    "title": "Low bookcase for a hallway",
    "piece": "Walnut, about 60 in long and no deeper than 11; must clear a radiator pipe.",
    "home_place": "Duluth, Minnesota",
    "home_rh_dry_pct": 22.0,
    "home_rh_damp_pct": 55.0,
    "notes": "Waiting for his sketch of the pipe.",
}
