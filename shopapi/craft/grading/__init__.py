"""Hardwood grade of a board from its size and marks, and the cuttings that prove it."""

from shopapi.craft.grading.board_grade import FaceGrade, Grading, grade
from shopapi.craft.grading.marking import GradeMark

__all__ = ["FaceGrade", "GradeMark", "Grading", "grade"]
