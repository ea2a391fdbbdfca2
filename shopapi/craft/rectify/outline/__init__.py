"""A board's four corners proposed from its photograph."""

from shopapi.craft.rectify.outline.proposal import How, Proposal, outline_corners, trace_edges

__all__ = ["How", "Proposal", "outline_corners", "trace_edges"]
