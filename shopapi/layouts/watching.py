"""How a running layout talks with its maker: progress at most once a second, and an ear for "stop"."""

from time import monotonic

from shopapi.layouts import selectors
from shopapi.layouts.models import Layout

SAID_EVERY_S = 1.0
HEARD_EVERY_S = 0.3


class Watch:
    """One layout while it is worked out."""

    def __init__(self, layout: Layout) -> None:
        self._layout = layout
        self._started = monotonic()
        self._said = self._heard = float("-inf")
        self._stopped = False

    def say(self, value: float, bound: float | None) -> None:
        """Keeps how far it is, so that phones hear of it; what comes too soon after the last is left out."""
        now = monotonic()
        if now - self._said < SAID_EVERY_S:
            return
        self._said = now
        self._layout.progress = {
            "value": value,
            "bound": bound,
            "gap_pct": round(100 * (bound - value) / bound, 2) if bound else None,
            "seconds": round(now - self._started, 1),
        }
        self._layout.save(update_fields=["progress"])

    def stopped(self) -> bool:
        """Whether the maker stopped or removed it meanwhile."""
        now = monotonic()
        if not self._stopped and now - self._heard >= HEARD_EVERY_S:
            self._heard = now
            self._stopped = selectors.is_stopped(self._layout)
        return self._stopped
