"""Everything that is printed, as plain data, frozen before it is drawn."""

from shopapi.craft.packet.breakdown import BoardBreakdown, BreakdownData, LeftOut
from shopapi.craft.packet.care import care_plan, cautions_for
from shopapi.craft.packet.common import BoardMark, Maker, Measures, Paper, Picture, Piece
from shopapi.craft.packet.cut_order import BOARD, TRIM, Cut, Section, named_sections, ordered_cuts
from shopapi.craft.packet.drawn_marks import board_mark
from shopapi.craft.packet.frozen import FrozenError, from_json, to_json
from shopapi.craft.packet.label_sheet import (
    SHEETS,
    USUAL_SHEETS,
    BoardLabel,
    BoardLabelsData,
    LabelsData,
    LabelSheet,
    PartLabel,
    SheetError,
)
from shopapi.craft.packet.packet import (
    BoardUsed,
    CareDue,
    CarePlan,
    Caution,
    FinishEntry,
    FinishRecord,
    PacketData,
    PartLine,
    UseDates,
)
from shopapi.craft.packet.seasons import MovementYear, PanelMonth, describe_year, movement_year
from shopapi.craft.packet.setups import FromPiece, Setup, setups
from shopapi.craft.packet.weight import mass_of_parts_kg

__all__ = [
    "BOARD",
    "SHEETS",
    "TRIM",
    "USUAL_SHEETS",
    "BoardBreakdown",
    "BoardLabel",
    "BoardLabelsData",
    "BoardMark",
    "BoardUsed",
    "BreakdownData",
    "CareDue",
    "CarePlan",
    "Caution",
    "Cut",
    "FinishEntry",
    "FinishRecord",
    "FromPiece",
    "FrozenError",
    "LabelSheet",
    "LabelsData",
    "LeftOut",
    "Maker",
    "Measures",
    "MovementYear",
    "PacketData",
    "PanelMonth",
    "Paper",
    "PartLabel",
    "PartLine",
    "Picture",
    "Piece",
    "Section",
    "Setup",
    "SheetError",
    "UseDates",
    "board_mark",
    "care_plan",
    "cautions_for",
    "describe_year",
    "from_json",
    "mass_of_parts_kg",
    "movement_year",
    "named_sections",
    "ordered_cuts",
    "setups",
    "to_json",
]
