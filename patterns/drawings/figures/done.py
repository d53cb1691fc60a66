"""An act as it was done: what figures are drawn from."""

from dataclasses import dataclass

from patterns.drafting.sized import SizedAct, SizedPattern
from patterns.drafting.units import Units
from patterns.drafting.work import Verb
from patterns.drawings.folding.state import State


@dataclass(frozen=True, slots=True)
class Done:
    """An act that was done. after_all: the work at the end of its step. before_all: at its beginning.

    acts: all of its step.
    """

    sized: SizedPattern
    title: str
    act: SizedAct
    before: State
    after: State
    before_all: State
    after_all: State
    acts: tuple[SizedAct, ...]

    @property
    def units(self) -> Units:
        return self.sized.units

    def alike(self, verb: Verb) -> list[SizedAct]:
        """Return every act of its step that does the same."""
        return [act for act in self.acts if act.verb == verb]
