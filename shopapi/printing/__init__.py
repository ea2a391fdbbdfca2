"""Draws what the shop and the client are handed on paper, from frozen data."""
