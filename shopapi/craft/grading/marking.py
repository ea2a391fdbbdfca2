"""A mark as grading sees it."""

from dataclasses import dataclass
from typing import Literal

from shopapi.craft.grading.clear import Box
from shopapi.craft.marks import Shape, bounds

Face = Literal["A", "B"]


@dataclass(frozen=True)
class GradeMark:
    """A mark on a board: its kind (a key of craft.marks.KINDS), face, shape in face A's coordinates [mm], and whether
    it goes through to the other face."""

    kind: str
    face: Face
    shape: Shape
    through: bool = False

    @property
    def box(self) -> Box:
        """The upright rectangle around it [mm]: cuttings are upright, so this is what they keep off."""
        around = bounds(self.shape)
        return around.x0_mm, around.y0_mm, around.x1_mm, around.y1_mm

    def seen_on(self, face: Face) -> bool:
        return self.through or self.face == face
