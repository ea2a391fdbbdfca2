"""Reads about dryness: gathered from the rack, the bench log and the commission; it has no rows of its own."""

import re
from datetime import timedelta
from zoneinfo import ZoneInfo

from django.utils import timezone

from shopapi.boards.models import Board, Reading
from shopapi.boards.selectors import latest_reading
from shopapi.commissions.models import Commission
from shopapi.craft.moisture import Air, Dryness, HomeAir, MeterReading, dryness
from shopapi.finishing.selectors import latest_air

# Air noted longer ago says nothing of today's; common practice, no source.
_AIR_COUNTS_FOR = timedelta(days=60)
# "Pin meter", "two pins"; a pinless meter looks through the wood and needs no such correction.
_PINS = re.compile(r"\bpins?\b(?!\s*-?\s*(less|free))", re.IGNORECASE)


def dryness_of(board: Board, commission: Commission) -> tuple[Dryness, Reading | None]:
    """Whether the board may be worked for the commission's home, by its newest reading."""
    reading = latest_reading(board)
    home = HomeAir(commission.home_rh_dry_pct, commission.home_rh_damp_pct, commission.home_temp_c)
    shown = _shown(reading) if reading else None
    return dryness(board.thickness_mm, board.species, shown, home, _shop_air(board)), reading


def _shown(reading: Reading) -> MeterReading:
    today = timezone.localdate(timezone=ZoneInfo(reading.workshop.time_zone))
    days_ago = max(0, (today - reading.read_on).days)
    return MeterReading(reading.mc_pct, days_ago, reading.temp_c, by_pins=bool(_PINS.search(reading.meter)))


def _shop_air(board: Board) -> Air | None:
    entry = latest_air(board.workshop, since=timezone.now() - _AIR_COUNTS_FOR)
    return None if entry is None else Air(entry.temp_c or 0.0, entry.rh_pct or 0.0)
