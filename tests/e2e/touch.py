"""Fingers on the screen, through the browser's own touch events."""

from playwright.sync_api import Locator, Page

Point = tuple[float, float]


def place(page: Page, name: str) -> Locator:
    """One of the four places in the bar at the bottom."""
    return page.get_by_role("navigation", name="Main").get_by_role("link", name=name, exact=True)


class Touch:
    def __init__(self, page: Page) -> None:
        self.page = page
        self.session = page.context.new_cdp_session(page)

    def tap(self, target: Locator) -> None:
        target.tap()

    def tap_at(self, x: float, y: float) -> None:
        self.page.touchscreen.tap(x, y)

    def press_at(self, x: float, y: float) -> None:
        """Puts a finger down and lifts it in the same place."""
        self._send("touchStart", [(x, y)])
        self.page.wait_for_timeout(120)
        self._send("touchEnd", [])

    def drag(self, start: Point, end: Point, steps: int = 12) -> None:
        """One finger from start to end, in steps."""
        self.hold(start, end, steps)
        self.release()

    def hold(self, start: Point, end: Point, steps: int = 12) -> None:
        """One finger from start to end that stays on the screen there."""
        self._send("touchStart", [start])
        for step in range(1, steps + 1):
            share = step / steps
            self._send("touchMove", [(start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)])

    def release(self) -> None:
        self._send("touchEnd", [])

    def pinch(self, centre: Point, start: float, end: float, steps: int = 10) -> None:
        """Two fingers, `start` apart, until they are `end` apart."""
        for step in range(steps + 1):
            half = (start + (end - start) * step / steps) / 2
            fingers = [(centre[0] - half, centre[1]), (centre[0] + half, centre[1])]
            self._send("touchMove" if step else "touchStart", fingers)
        self._send("touchEnd", [])

    def _send(self, kind: str, points: list[Point]) -> None:
        fingers = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(points)]
        self.session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": fingers})
