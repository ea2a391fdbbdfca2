"""Clear wood of a face: its largest clear rectangles and its clear share."""

from shopapi.craft.clear_area.face import ClearFace, clear_face
from shopapi.craft.clear_area.rectangles import clear_rectangles, clear_share

__all__ = ["ClearFace", "clear_face", "clear_rectangles", "clear_share"]
