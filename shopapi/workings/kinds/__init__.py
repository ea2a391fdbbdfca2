"""Every kind of working the shop knows, a module per family; the order is that of the list on the phone."""

from shopapi.workings.declare import WorkingKind
from shopapi.workings.kinds import (
    angles,
    finishing,
    gluing,
    lumber,
    milling,
    moisture,
    movement,
    room_to_move,
    sanding,
    strength,
    wood,
)

_FAMILIES = (movement, room_to_move, moisture, wood, lumber, milling, angles, gluing, strength, sanding, finishing)

KINDS: dict[str, WorkingKind] = {kind.key: kind for family in _FAMILIES for kind in family.KINDS}
