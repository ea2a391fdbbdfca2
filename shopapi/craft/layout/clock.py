"""Counted work drives a search, the wall clock only ends it: the same seed and budget give the same answer."""

from __future__ import annotations

import time
from collections.abc import Callable

# One unit is about a microsecond on a shop computer of the 2020s; only the ratio of stages depends on it.
SECTION_UNITS = 1.0
STEP_UNITS = 15.0


class Clock:
    """Counts work in units of about a microsecond, and knows when to end.

    Ends when `seconds` of wall time are gone, when `work` units are done, or when `should_stop` says so.
    """

    def __init__(
        self, seconds: float, work: float | None = None, should_stop: Callable[[], bool] | None = None
    ) -> None:
        self.started = time.monotonic()
        self.seconds = seconds
        self.work = work
        self.done = 0.0
        self._should_stop = should_stop

    def count(self, units: float) -> None:
        """Note work done."""
        self.done += units

    @property
    def elapsed(self) -> float:
        """Wall time since the start. [s]"""
        return time.monotonic() - self.started

    @property
    def spent(self) -> float:
        """The share of the work, or else of the time, that is gone."""
        return self.done / max(self.work, 1.0) if self.work is not None else self.elapsed / max(self.seconds, 1e-9)

    def part(self, share: float) -> Clock:
        """A clock for a share of what is left; this one counts its time, not its work."""
        work = None if self.work is None else share * max(self.work - self.done, 0.0)
        return Clock(share * max(self.seconds - self.elapsed, 0.0), work, self._should_stop)

    @property
    def over(self) -> bool:
        """Whether to end now."""
        if self.work is not None and self.done >= self.work:
            return True
        if self.elapsed >= self.seconds:
            return True
        return self._should_stop is not None and self._should_stop()
