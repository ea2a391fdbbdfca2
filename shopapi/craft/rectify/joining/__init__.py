"""Several shots along a face joined to one squared picture."""

from shopapi.craft.rectify.joining.face import Joined, Overlap, join_shots
from shopapi.craft.rectify.joining.putting_right import Righted
from shopapi.craft.rectify.joining.stretch import Stretch

__all__ = ["Joined", "Overlap", "Righted", "Stretch", "join_shots"]
