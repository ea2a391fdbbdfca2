"""Why a photograph cannot be squared, each reason under its own name and in words that say what would work."""


class RectifyError(ValueError):
    """A photograph that cannot be squared; the message is meant for the maker."""


class BoardSizeError(RectifyError):
    """The board's length or width is no size a board can have."""


class CornersMissingError(RectifyError):
    """Fewer than four points, or points that are not numbers."""


class CornersRepeatedError(RectifyError):
    """Two points lie on the same spot."""


class CornersInLineError(RectifyError):
    """Three points lie on one line, so the board would have no width."""


class CornersCrossedError(RectifyError):
    """The outline crosses itself: the points were placed in zigzag order."""


class CornersDentedError(RectifyError):
    """One corner lies inside the triangle of the other three, as no view of a board can show."""


class SidesSwappedError(RectifyError):
    """The short side of the outline was given as the board's length, and either end could be the butt end."""


class BeyondHorizonError(RectifyError):
    """A point that the photograph sees behind the camera has no place on the board."""


class PictureError(RectifyError):
    """The picture handed over is no colour or grey image."""


class OffBoardError(RectifyError):
    """A reference point is said to lie where the board is not."""


class NoStretchError(RectifyError):
    """No shot, or one that covers no stretch of the board."""


class MirroredShotError(RectifyError):
    """A shot shows the face mirrored, and which way it should be cannot be told."""
