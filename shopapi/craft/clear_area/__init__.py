"""Clear wood of a face: its largest clear rectangles and its clear share."""

from shopapi.craft.clear_area.rectangles import clear_rectangles, clear_share

__all__ = ["clear_rectangles", "clear_share"]
