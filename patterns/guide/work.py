"""What a step may say it does to the cloth: each word with its keys, and what must be so."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from patterns.drafting.lists import listed
from patterns.drafting.work import VERBS, WORDS, Kind, Verb

SAYS: Final[Mapping[Verb, str]] = {
    "cut": "Gives a cut piece a name as cloth. Two halves share one name until they are joined.",
    "fuse": "The interfacing that is cut at this size lies in the middle of the wrong side, out to the raw "
    "edges or clear of the seams.",
    "join": "Sews two halves to one cloth, whose marks are the front’s and the back’s (“front pleat line”). "
    "The seam has a name from then on. An opening that is left lies on it.",
    "mark": "Draws marks on cloths. From then on the steps may use them, with the cloth’s name: “exterior "
    "middle fold”.",
    "clip": "Snips at marks. Each ends outside the side seam lines.",
    "crease": "Folds, presses and opens again.",
    "stack": "Lays a cloth on another, front edge on front edge.",
    "seam": "Sews two marks that lie on each other. Their edges are equally long and like sides face. The "
    "opening lies on the seam and ends inside the side seam lines.",
    "press": "Presses seams that are there.",
    "lay": "Lays a loop flat, seam on seam, folded at the marks, the first to the left; the seam with the "
    "opening lies underneath.",
    "fold": "Folds at marks that lie on each other. All beyond them, where “bring” lies, goes over the rest.",
    "push": "A fold goes in between its own two layers, until the other marks lie on each other at its end.",
    "tuck": "The two layers at one fold go between the two at another, past no other cloth.",
    "meet": "The marks lie on each other. Of two folds the first lies in the second.",
    "sew": "Sews both sides: bottom folds level, so many layers in the lowest stretch and above it, wrong "
    "side on wrong side wherever two cloths meet round the seam. With a zip, each loop is level with the "
    "other’s, no row ties together what the side seams part, and “above” is the fewest layers.",
    "trim": "Trims corners outside the stitching, or all layers of the sides to one allowance.",
    "turn": "Turns right side out, through an opening that was left and is still open, on an outer face and "
    "away from the flap; a bag without one by its top.",
    "edge": "Rolls seams to the edge.",
    "topstitch": "Stitches so far below the edge. A row that closes an opening holds what is turned in.",
    "finish": "The cloth lies outside, and folded flat it is that large.",
    "remove": "Cuts a square of that size out of both lower corners: the outline has it.",
    "pair": "Sews a cloth that was cut twice, by a line all round. Its corners are cut out. Gaps lie on the "
    "side seams, the opening on the base seam, all clear of corners and top.",
    "pull": "Pulls the corners open and sews them, side seam on base seam. Both edges of a cut-out are "
    "equally long, and the base comes out that large.",
    "ring": "Closes a side to a ring. Between its seams it is that long, π and all.",
    "stay": "Stitches a row inside the allowance and snips up to it: no snip cuts the seam.",
    "attach": "Sews a base to the ring that was pinned to it. It is a bag then, with the side’s marks.",
    "grade": "Trims the layers of a base seam to steps.",
    "nest": "Puts a bag into another, one right, one wrong side out, equally long round and equally high.",
    "rim": "Sews two nested bags along the top. The seam is that long, its opening clear of the side seams.",
    "shut": "Slips the opening closed, once the work is turned.",
    "stand": "The bag is turned, nothing is open, and it is that large. Its handles drop so far.",
    "narrow": "Folds both long edges of a strip to a line: they meet there.",
    "halve": "Folds a narrowed strip in half, four layers, and stitches both edges.",
    "baste": "Bastes a handle at two points, or at the line between them, evenly beside the middle.",
    "surround": "Sews a pocket that was cut twice, at four lines that far apart, with the opening in one.",
    "evert": "Turns a pocket through its own opening, to that size.",
    "apply": "Sews a pocket on, at two lines as far apart and as long as it is. The row closes its opening.",
    "pack": "Folds the thing to go into its pocket: thirds and turns come out whole, the parcel is smaller "
    "than the pocket, and the first fold lies below its mouth.",
    "stow": "Puts it into the pocket it was packed for.",
    "measure": "Gives cord, ribbon or webbing a name, so many pieces of that length.",
    "frame": "Stitches round gaps, and catches the allowances that are folded back there.",
    "draw": "Draws two lines on what is turned, so far below the top seam.",
    "pin": "Pins a ring to a round base, quarters on quarters: both are equally long round. Or pins a bag to "
    "a bag, both joined and turned.",
    "channel": "Sews the two rows of a channel, which run at the ends of the gaps.",
    "thread": "Threads a cord for each gap. So much of each end hangs out.",
    "knot": "Knots the ends of a cord outside the gaps, with the bag open.",
    "gather": "Draws the cord shut: the neck is that long round, and the ends hang out so far.",
    "catch": "Catches a ribbon in a seam, or a loop, clear of the marks where the cloth folds.",
    "tie": "Ties the ribbon round the neck. It is long enough, and leaves its tails.",
    "zip": "Gives a zip a name. Its marks are “front seam line”, “teeth” and “back seam line”.",
    "set": "Sews a tape in: edge on raw edges, centre on centre, right sides together with the first cloth. "
    "It sticks out at both sides. What hangs from its other tape makes loops, equally long and not twisted.",
    "fasten": "One seam through cloth, tape and cloth: three lines lie on each other.",
    "spread": "Turns cloths away from the zip, wrong sides together.",
    "edgestitch": "Stitches beside the zip, so far off, and ends so far before the side seam lines.",
    "secure": "Sews across both ends of the zip.",
    "open": "Opens the zip by that part of its length.",
    "shorten": "Cuts the ends of the zip, once they are sewn across.",
    "part": "Lays two loops apart, folded there, zip seam on zip seam, about the teeth.",
    "close": "Stitches an opening closed by machine, after turning.",
    "slip": "Pushes a cloth into another, openings closed. The outer triangles show, the inner are hidden.",
    "unite": "Sews a back and a front that are cut differently to one cloth, as “join” does two halves.",
    "hem": "Turns edges in, as deep as each other, folds level.",
    "mount": "Bastes cloths wrong sides together, a window’s depth left free. They are one from then on.",
    "lap": "Puts a window’s edge between folded edges, as deep as its lap line. Both rows go through all "
    "layers. With “round” the strip becomes a loop.",
    "reverse": "Turns a loop so that this cloth lies outside.",
    "even": "The cloths are equally wide.",
    "fourfold": "Folds the long edges of a strip to its middle.",
    "bind": "Binds the side seams with a strip as long as the seam. It covers what is left of the allowance.",
}
_KINDS: Final[Mapping[Kind, str]] = {
    "piece": "a piece",
    "pieces": "pieces",
    "new": "a name of your own",
    "cloth": "a cloth",
    "cloths": "cloths",
    "line": "a mark of it",
    "lines": "marks of it",
    "mark": "a mark with its cloth",
    "marks": "marks with their cloths",
    "length": "a length",
    "number": "a number",
    **{kind: listed([f"“{word}”" for word in words], "or") for kind, words in WORDS.items()},
}


@dataclass(frozen=True, slots=True)
class Word:
    """keys: each with what stands behind it; the word itself is the first of them."""

    verb: Verb
    keys: tuple[tuple[str, str], ...]
    optional: tuple[tuple[str, str], ...]
    says: str


def words() -> Iterator[Word]:
    """Yield every word that a step may use."""
    for verb, grammar in VERBS.items():
        needed, optional = (
            tuple((key, _KINDS[kind]) for key, kind in keys.items())
            for keys in (grammar.needed, grammar.optional)
        )
        yield Word(verb, needed, optional, SAYS[verb])
