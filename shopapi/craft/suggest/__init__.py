"""Marks suggested from a squared picture, never counted until the maker accepts them."""

from shopapi.craft.suggest.suggestion import Suggestion, suggest_marks

__all__ = ["Suggestion", "suggest_marks"]
