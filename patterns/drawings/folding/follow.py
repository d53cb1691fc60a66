"""Following the steps of a sized pattern: the work before and after each, or what does not meet."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from patterns.drafting.lists import listed
from patterns.drafting.sized import SizedAct, SizedPattern
from patterns.drafting.units import Units
from patterns.drafting.work import Verb
from patterns.drawings import words

from . import (
    bags,
    binding,
    cords,
    folds,
    handles,
    hung,
    nesting,
    pockets,
    preparing,
    ribbons,
    rounds,
    seaming,
    windows,
    zips,
)
from .errors import AmissError, FoldingError
from .state import ApartError, DiffersError, State

Done = Callable[[State, SizedAct, SizedPattern], State]


@dataclass(frozen=True, slots=True)
class Followed:
    """A step that was followed: the work before it, and after each of its acts."""

    before: State
    acts: tuple[tuple[SizedAct, State], ...]

    @property
    def after(self) -> State:
        return self.acts[-1][1] if self.acts else self.before


def follow(sized: SizedPattern) -> tuple[Followed, ...]:
    """Return the work before and after each step; steps that say nothing of the cloth leave it as it is.

    Raises FoldingError: a step that cannot be done so, or after which something does not meet.
    """
    state, found = State(), []
    for number, step in enumerate(sized.steps, 1):
        before, acts = state, []
        for act in step.work:
            try:
                state = ACTS[act.verb](state, act, sized)
            except AmissError as error:
                raise FoldingError(number, step.title, _told(error, sized.units)) from None
            acts.append((act, state))
        found.append(Followed(before, tuple(acts)))
    return tuple(found)


def _told(error: AmissError, units: Units) -> str:
    if isinstance(error, ApartError):
        apart = words.cutting(error.apart, units)
        if len(error.names) == 1:
            return f"the {error.names[0]} lies in two places, {apart} apart."
        return f"the {listed(error.names, 'and')} do not lie on each other: they lie {apart} apart."
    if isinstance(error, DiffersError):
        found, told = (words.cutting(length, units) for length in (error.found, error.told))
        return f"{error.what} comes to {found}, where it should be {told}."
    return str(error)


def _alone(act: Callable[[State, SizedAct], State]) -> Done:
    """An act that needs nothing but the work itself."""
    return lambda state, words, _: act(state, words)


def _flat_or_bag(flat: Callable[[State, SizedAct], State], bag: Callable[[State, SizedAct], State]) -> Done:
    """An act that is done otherwise to bags than to what lies flat on the table."""
    return lambda state, words, _: (bag if state.sewn.bags else flat)(state, words)


def _with_a_zip(
    hung_from_it: Callable[[State, SizedAct], State], without: Callable[[State, SizedAct], State]
) -> Callable[[State, SizedAct], State]:
    """An act that is another one where the work hangs from a zip."""
    return lambda state, act: (hung_from_it if state.zips else without)(state, act)


def _trim(state: State, act: SizedAct) -> State:
    return (binding.trim_evenly if act.one("trim") == "sides" else seaming.trim)(state, act)


ACTS: Final[Mapping[Verb, Done]] = {
    "cut": preparing.cut,
    "fuse": preparing.fuse,
    "join": preparing.join,
    "mark": _alone(preparing.mark),
    "clip": _alone(preparing.clip),
    "crease": _alone(preparing.crease),
    "stack": _alone(seaming.stack),
    "seam": _alone(seaming.seam),
    "press": _flat_or_bag(seaming.press, bags.press),
    "lay": _alone(folds.lay),
    "fold": _alone(folds.fold),
    "push": _alone(folds.push),
    "tuck": _alone(folds.tuck),
    "meet": _alone(folds.meet),
    "sew": _alone(_with_a_zip(hung.sew_across, seaming.sew)),
    "trim": _alone(_trim),
    "turn": _flat_or_bag(_with_a_zip(hung.turn_out, folds.turn), nesting.turn),
    "edge": _flat_or_bag(seaming.edge, nesting.edge),
    "topstitch": _flat_or_bag(seaming.topstitch, nesting.topstitch),
    "finish": _alone(folds.finish),
    "remove": _alone(bags.remove),
    "pair": _alone(bags.pair),
    "pull": _alone(bags.pull),
    "ring": rounds.ring,
    "stay": _alone(rounds.stay),
    "attach": _alone(rounds.attach),
    "grade": _alone(rounds.grade),
    "nest": _alone(nesting.nest),
    "rim": _alone(nesting.rim),
    "shut": _alone(nesting.shut),
    "stand": _alone(nesting.stand),
    "narrow": _alone(handles.narrow),
    "halve": _alone(handles.halve),
    "baste": _alone(handles.baste),
    "surround": _alone(pockets.surround),
    "evert": _alone(pockets.evert),
    "apply": _alone(pockets.apply),
    "pack": _alone(pockets.pack),
    "stow": _alone(pockets.stow),
    "measure": _alone(cords.measure),
    "frame": _alone(cords.frame),
    "draw": _alone(cords.draw),
    "pin": cords.pin,
    "channel": _alone(cords.channel),
    "thread": _alone(cords.thread),
    "knot": _alone(cords.knot),
    "gather": _alone(cords.gather),
    "catch": _alone(ribbons.catch),
    "tie": _alone(ribbons.tie),
    "zip": _alone(zips.make_ready),
    "set": _alone(zips.set_in),
    "fasten": _alone(zips.fasten),
    "spread": _alone(zips.spread),
    "edgestitch": _alone(zips.edgestitch),
    "secure": _alone(zips.secure),
    "open": _alone(zips.open_up),
    "shorten": _alone(zips.shorten),
    "part": _alone(hung.part),
    "close": _alone(hung.close),
    "slip": _alone(hung.slip),
    "unite": _alone(preparing.unite),
    "even": _alone(preparing.even),
    "hem": _alone(windows.hem),
    "mount": _alone(windows.mount),
    "lap": _alone(windows.lap),
    "reverse": _alone(windows.reverse),
    "fourfold": _alone(binding.fourfold),
    "bind": _alone(binding.bind),
}
"""What each verb does to the work; a test asks for every verb."""
