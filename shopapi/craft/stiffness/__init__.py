"""Whether it holds: sag of shelves and rails, screws, tipping, and what the piece weighs."""

from shopapi.craft.stiffness.beams import Sag, sag, stiffness_at_moisture
from shopapi.craft.stiffness.mass import MassPart, piece_mass
from shopapi.craft.stiffness.screws import Withdrawal, lead_hole_mm, screw_withdrawal
from shopapi.craft.stiffness.tipping import Drawer, StorageBalance, storage_balance, table_tip_force

__all__ = [
    "Drawer",
    "MassPart",
    "Sag",
    "StorageBalance",
    "Withdrawal",
    "lead_hole_mm",
    "piece_mass",
    "sag",
    "screw_withdrawal",
    "stiffness_at_moisture",
    "storage_balance",
    "table_tip_force",
]
