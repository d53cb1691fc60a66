"""What a step does to the cloth, in words of the trade: cut, mark, stack, seam, fold, sew, turn.

A recipe's steps may say so beside their sentences. The folding model follows it, so that the instructions
are proved and their figures are drawn from what was followed.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from .formulas.formula import Formula

Verb = Literal[
    "cut",
    "fuse",
    "join",
    "mark",
    "clip",
    "crease",
    "stack",
    "seam",
    "press",
    "lay",
    "fold",
    "push",
    "tuck",
    "meet",
    "sew",
    "trim",
    "turn",
    "edge",
    "topstitch",
    "finish",
    # Bags with cut-out corners, or with a round base.
    "remove",
    "pair",
    "pull",
    "ring",
    "stay",
    "attach",
    "grade",
    "nest",
    "rim",
    "shut",
    "stand",
    # Handles and pockets.
    "narrow",
    "halve",
    "baste",
    "surround",
    "evert",
    "apply",
    "pack",
    "stow",
    # Cords and their channel.
    "measure",
    "frame",
    "draw",
    "pin",
    "channel",
    "thread",
    "knot",
    "gather",
    # Ribbons.
    "catch",
    "tie",
    # A zip, and what hangs from it.
    "zip",
    "set",
    "fasten",
    "spread",
    "edgestitch",
    "secure",
    "open",
    "shorten",
    "part",
    "close",
    "slip",
    # A clear window, and cloths that are worked as one.
    "unite",
    "hem",
    "mount",
    "lap",
    "reverse",
    "even",
    # Bound edges.
    "fourfold",
    "bind",
]
# What stands behind a key. cloth: the name that `as` gave a cut piece. line: a mark by its own name.
# mark: a mark of a cloth, “exterior middle fold”. new: a name given here. An s: a list of them; of pieces,
# one that is cut at this size.
Kind = Literal[
    "piece",
    "pieces",
    "new",
    "cloth",
    "cloths",
    "line",
    "lines",
    "mark",
    "marks",
    "sides",
    "way",
    "where",
    "edges",
    "face",
    "length",
    "number",
]
LISTS: Final = frozenset[Kind]({"pieces", "cloths", "lines", "marks"})
AMOUNTS: Final = frozenset[Kind]({"length", "number"})
# The words that may stand where a kind allows a few only.
WORDS: Final[Mapping[Kind, tuple[str, ...]]] = {
    "sides": ("right sides together", "wrong sides together"),
    "way": ("up", "under"),
    "where": ("corners", "sides"),
    "edges": ("sides", "base", "sides and base"),
    "face": ("right side", "wrong side"),
}


@dataclass(frozen=True, slots=True)
class Grammar:
    """The keys of one verb, the verb itself the first of `needed`, each with what stands behind it."""

    needed: Mapping[str, Kind]
    optional: Mapping[str, Kind]

    @property
    def kinds(self) -> Mapping[str, Kind]:
        return {**self.needed, **self.optional}


def _grammar(optional: Mapping[str, Kind] | None = None, /, **needed: Kind) -> Grammar:
    return Grammar({key.rstrip("_"): kind for key, kind in needed.items()}, optional or {})


VERBS: Final[Mapping[Verb, Grammar]] = {
    "cut": _grammar(cut="piece", as_="new"),
    "fuse": _grammar(fuse="pieces", to="cloth"),
    "join": _grammar({"leave": "line"}, join="cloth", at="line", as_="new", middle="new"),
    "mark": _grammar({"face": "face"}, mark="lines", on="cloths"),
    "clip": _grammar(clip="lines", on="cloths"),
    "crease": _grammar(crease="lines", on="cloths"),
    "stack": _grammar(stack="cloth", on="cloth", sides="sides"),
    "seam": _grammar({"leave": "mark"}, seam="marks"),
    "press": _grammar(press="marks"),
    "lay": _grammar(lay="marks", under="mark"),
    "fold": _grammar({"way": "way"}, fold="marks", bring="mark"),
    "push": _grammar(push="mark", between="marks"),
    "tuck": _grammar(tuck="mark", into="mark"),
    "meet": _grammar(meet="marks"),
    "sew": _grammar(sew="lines", of="cloths", layers="number", above="number"),
    "trim": _grammar(trim="where", leave="length"),
    "turn": _grammar({"through": "mark"}, turn="cloth"),
    "edge": _grammar(edge="marks"),
    "topstitch": _grammar({"closes": "mark"}, topstitch="marks", below="length"),
    "finish": _grammar(finish="cloth", width="length", height="length"),
    "remove": _grammar(remove="where", of="cloths", square="length"),
    "pair": _grammar({"leave": "marks"}, pair="cloth", edges="edges", by="line"),
    "pull": _grammar(pull="cloth", by="line", width="length", depth="length"),
    "ring": _grammar(ring="cloth", by="line", round="length"),
    "stay": _grammar(stay="cloth", below="length", every="length"),
    "attach": _grammar(attach="cloth", to="cloth", by="line", as_="new"),
    "grade": _grammar(grade="cloth"),
    "nest": _grammar(nest="cloth", in_="cloth", sides="sides"),
    "rim": _grammar({"leave": "mark"}, rim="cloths", by="line", round="length"),
    "shut": _grammar(shut="mark"),
    "stand": _grammar({"drop": "length"}, stand="cloth", width="length", depth="length", height="length"),
    "narrow": _grammar(narrow="cloth", at="lines", to="line", width="length"),
    "halve": _grammar({"below": "length"}, halve="cloth", at="line", width="length"),
    "baste": _grammar(baste="cloth", on="cloth", at="lines", apart="length"),
    "surround": _grammar(surround="cloth", at="lines", leave="mark", width="length", height="length"),
    "evert": _grammar({"below": "length"}, evert="cloth", through="mark", width="length", height="length"),
    "apply": _grammar(apply="cloth", on="cloth", at="lines", below="length"),
    "pack": _grammar(pack="cloth", pocket="cloth", across="length", up="length", below="length"),
    "stow": _grammar(stow="cloth", into="cloth", width="length", height="length"),
    "measure": _grammar({"width": "length"}, measure="new", as_="new", pieces="number", long="length"),
    "frame": _grammar(frame="marks", off="length"),
    "draw": _grammar(draw="marks", drop="length", width="length"),
    "pin": _grammar({"quarters": "lines"}, pin="cloth", to="cloth"),
    "channel": _grammar(channel="marks", between="marks"),
    "thread": _grammar(thread="cloth", through="marks", ends="length"),
    "knot": _grammar(knot="cloth", place="length"),
    "gather": _grammar(gather="cloth", round="cloth", ends="length", holds="length"),
    "catch": _grammar(
        {"tails": "length", "loop": "length"}, catch="cloth", on="cloth", at="line", below="length"
    ),
    "tie": _grammar(tie="cloth", round="cloth", below="length", holds="length", bow="length"),
    "zip": _grammar(zip="new", tape="length", reveal="length", long="length"),
    "set": _grammar(set="cloth", at="mark", between="marks", centres="marks"),
    "fasten": _grammar(fasten="marks"),
    "spread": _grammar(spread="cloths", from_="cloth"),
    "edgestitch": _grammar({"short": "length"}, edgestitch="marks", beside="cloth", off="length"),
    "secure": _grammar(secure="cloth"),
    "open": _grammar(open="cloth", by="number"),
    "shorten": _grammar(shorten="cloth"),
    "part": _grammar(part="marks", about="mark"),
    "close": _grammar(close="mark", off="length"),
    "slip": _grammar(slip="cloth", into="cloth"),
    "unite": _grammar(unite="cloth", with_="cloth", at="line", as_="new", middle="new"),
    "hem": _grammar(hem="marks"),
    "mount": _grammar(mount="cloths", free="length"),
    "lap": _grammar({"round": "marks"}, lap="mark", between="marks", first="length", second="length"),
    "reverse": _grammar(reverse="cloth"),
    "even": _grammar(even="cloths"),
    "fourfold": _grammar(fourfold="cloth", at="line"),
    "bind": _grammar(bind="where", with_="cloth", long="length"),
}


@dataclass(frozen=True, slots=True)
class Named:
    """What an act names: `("on", ("exterior", "lining"))` and so on, in the order of its grammar."""

    verb: Verb
    names: tuple[tuple[str, tuple[str, ...]], ...]

    def all(self, key: str) -> tuple[str, ...]:
        """Return the names behind a key; none where it is left out."""
        return next((names for found, names in self.names if found == key), ())

    def one(self, key: str) -> str:
        """Return the one name behind a key; "" where it is left out."""
        return next(iter(self.all(key)), "")


@dataclass(frozen=True, slots=True)
class Act(Named):
    """One thing that a step does to the cloth, as the designer wrote it."""

    amounts: tuple[tuple[str, Formula], ...] = ()


Half = Literal["front", "back", "both", "seam"]
# Of two halves that were cut alike, what is marked for one of them is the front's.
_ON_THE_FRONT = frozenset({"opening", "place", "clip"})


def joined_lines(
    lines: Iterable[tuple[str, str, bool]], at: str, middle: str
) -> Iterator[tuple[str, str, Half]]:
    """Yield the marks of a cloth joined from two halves: its name there, its own name, whose half's it is.

    lines: of a half, each mark's name, kind, and whether it lies across the half. at: the line that is
    sewn, which is called `middle` from then on. A line across comes twice, as the front's and the back's.
    A place does so too, and under its own name is the front's: a zip has a centre on either half, a label
    one place only.

    >>> list(joined_lines([("pleat line", "fold", True)], "base seam", "middle"))
    [('front pleat line', 'pleat line', 'front'), ('back pleat line', 'pleat line', 'back')]
    """
    for name, kind, lies_across in lines:
        if name == at:
            yield middle, name, "seam"
        elif kind in _ON_THE_FRONT:
            yield name, name, "front"
            if kind == "place" and lies_across:
                yield f"front {name}", name, "front"
                yield f"back {name}", name, "back"
        elif lies_across:
            yield f"front {name}", name, "front"
            yield f"back {name}", name, "back"
        else:
            yield name, name, "both"


# The marks that every zip has: where its tapes are sewn, and the teeth between them.
ZIP_LINES: Final = ("front seam line", "teeth", "back seam line")


def united_lines(
    back: Iterable[str], front: Iterable[str], at: str, middle: str
) -> Iterator[tuple[str, str, Literal["front", "back"]]]:
    """Yield the marks of a cloth sewn together from a back and a front that are cut differently.

    back, front: the names of their marks. Each: its name on the cloth, its own name, and whose it is. What
    both have becomes the front's and the back's, but side seam lines run on as one; the seam at the line
    `at` is called `middle`.

    >>> list(united_lines(["pleat line", "base seam"], ["pleat line", "base seam"], "base seam", "middle"))
    [('back pleat line', 'pleat line', 'back'), ('middle', 'base seam', 'back'), \
('front pleat line', 'pleat line', 'front')]
    """
    backs, fronts = list(back), list(front)
    for name in backs:
        if name == at:
            yield middle, name, "back"
        elif name in fronts and not name.endswith("side seam line"):
            yield f"back {name}", name, "back"
        else:
            yield name, name, "back"
    for name in fronts:
        if name not in backs:
            yield name, name, "front"
        elif name != at and not name.endswith("side seam line"):
            yield f"front {name}", name, "front"
