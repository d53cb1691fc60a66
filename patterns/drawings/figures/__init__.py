"""Figures of the steps: each drawn from the folding model's state, to scale, in the place beside a step."""

from .board import StepFigure
from .choosing import figure_of

__all__ = ["StepFigure", "figure_of"]
