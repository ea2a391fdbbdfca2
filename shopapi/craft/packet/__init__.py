"""Everything that is printed, as plain data, frozen before it is drawn."""

from shopapi.craft.packet.breakdown import BoardBreakdown, BreakdownData, LeftOut
from shopapi.craft.packet.care import care_plan, cautions_for
from shopapi.craft.packet.common import BoardMark, Maker, Measures, Paper, Picture, Piece
from shopapi.craft.packet.cut_order import BOARD, TRIM, Cut, Section, named_sections, ordered_cuts
from shopapi.craft.packet.frozen import FrozenError, from_json, to_json
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

__all__ = [
    "BOARD",
    "TRIM",
    "BoardBreakdown",
    "BoardMark",
    "BoardUsed",
    "BreakdownData",
    "CareDue",
    "CarePlan",
    "Caution",
    "Cut",
    "FinishEntry",
    "FinishRecord",
    "FrozenError",
    "LeftOut",
    "Maker",
    "Measures",
    "MovementYear",
    "PacketData",
    "PanelMonth",
    "Paper",
    "PartLine",
    "Picture",
    "Piece",
    "Section",
    "UseDates",
    "care_plan",
    "cautions_for",
    "describe_year",
    "from_json",
    "movement_year",
    "named_sections",
    "ordered_cuts",
    "to_json",
]
