"""The folding model: cloth as strips with marks, followed through the steps of a recipe.

Seen from its side edge a panel is a strip: it is marked along its length, and folded across it. A step
stacks, seams, folds, pushes in, tucks, sews and turns; where each layer lies follows by reflection, exactly.
What must meet is asserted at every act, so that following the steps proves the instructions at that size.
"""

from .errors import FoldingError
from .follow import Followed, follow

__all__ = ["FoldingError", "Followed", "follow"]
