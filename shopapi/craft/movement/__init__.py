"""How wide wood gets and how narrow: one board, a panel, a home's year, and the slots and gaps that follow."""

from shopapi.craft.movement.change import Strip, cup_depth, panel_change, width_change
from shopapi.craft.movement.room import BreadboardRoom, PanelRoom, Slot, breadboard_room, panel_room, slot_for
from shopapi.craft.movement.year import HomeMonth, MonthWidth, YearOfWidth, home_year, width_through_year

__all__ = [
    "BreadboardRoom",
    "HomeMonth",
    "MonthWidth",
    "PanelRoom",
    "Slot",
    "Strip",
    "YearOfWidth",
    "breadboard_room",
    "cup_depth",
    "home_year",
    "panel_change",
    "panel_room",
    "slot_for",
    "width_change",
    "width_through_year",
]
