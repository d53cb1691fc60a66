"""The parts of a recipe text, and what is written behind each of their keys."""

from dataclasses import dataclass
from typing import Final, get_args

from patterns.drafting.lists import listed
from patterns.drafting.recipe import Form, Level, MarkKind, MaterialKind, Role, Tint

from . import example_of


@dataclass(frozen=True, slots=True)
class Key:
    """says: empty for what is a table of its own. code: what may stand behind it, as it is typed."""

    name: str
    says: str
    is_needed: bool = True
    code: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """path: where its keys stand, `*` for a name, `[]` for one of a list. shown: its table in the example."""

    path: str
    title: str
    says: str
    keys: tuple[Key, ...] = ()
    shown: str | None = None

    @property
    def slug(self) -> str:
        return self.title.lower().replace(" ", "-").replace("’", "")

    @property
    def told(self) -> list[Key]:
        return [key for key in self.keys if key.says]

    @property
    def tables(self) -> list[Key]:
        return [key for key in self.keys if not key.says]

    @property
    def example(self) -> str:
        return "" if self.shown is None else example_of(self.shown)


def _one_of(words: object) -> str:
    return listed([f"“{word}”" for word in get_args(words)], "or")


def _may(name: str, says: str, code: str = "") -> Key:
    return Key(name, says, is_needed=False, code=code)


_WHEN: Final = _may("when", "With which choices it is there; without it, always.", '{ corners = ["sewn"] }')
_SAYS: Final = "In a few words, for the customer."

PARTS: Final = (
    Part(
        "",
        "What it is",
        "The first lines, above every table.",
        (
            Key("title", "What the pattern is called."),
            Key("language", "The language it is written in, by its code.", code='"en-GB"'),
            Key("summary", "What it is, in one or two sentences. The list and the cover of the book say it."),
            Key("skill", "What somebody should have sewn before."),
            Key("time", "How long it takes to make."),
            Key("revised", "The day of this text: “2026-11-29”. It stands on the book."),
            Key("finished", ""),
            Key("measures", ""),
            _may("note", "For yourself: no customer reads it."),
            *(
                _may(name, "")
                for name in (
                    *("holds", "constants", "options", "amounts", "pieces", "truings", "checks"),
                    *("materials", "tells", "steps", "cautions", "sizes"),
                )
            ),
        ),
        "",
    ),
    Part(
        "finished",
        "The finished size",
        "What is promised, as three formulas; and how the finished thing is drawn.",
        (
            Key("form", f"The drawing that is nearest: {_one_of(Form)}."),
            Key("width", "A formula."),
            Key("height", "A formula."),
            Key("depth", "A formula. Of what is round, its diameter again."),
        ),
        "[finished]",
    ),
    Part(
        "holds",
        "What can be filled",
        "The box that goes in, for “From what goes in”. Leave it out where nothing does. For what is round "
        "write diameter and height instead.",
        (
            Key("width", "A formula."),
            Key("height", "A formula."),
            Key("depth", "A formula."),
            _may("diameter", "A formula, in place of width and depth."),
        ),
        "[holds]",
    ),
    Part(
        "measures.*",
        "Measures",
        "What the customer types. The name is yours, and formulas read it: “width”, “seam allowance”.",
        (
            Key(
                "role",
                f"{_one_of(Role)}: a measure of the finished size, or one of how it is made. Only sizes are "
                "moved when another size is looked for.",
            ),
            Key("says", "Where it is measured."),
            Key("in", "Its range in inches: least, most, default and step, each in quotes."),
            Key("cm", "The same in centimetres: round ones, not converted."),
            _may("number", "In place of both, for a bare number: how many loops."),
        ),
        "[measures.height]",
    ),
    Part(
        "constants",
        "Constants",
        "Fixed lengths, one for each unit system; or bare numbers, in quotes. No length stands in a formula "
        "itself, because it would be an odd one in the other system.",
        shown="[constants]",
    ),
    Part(
        "options.*",
        "Options",
        "What the customer chooses. Whatever depends on it says so by “when”.",
        (
            Key("says", _SAYS),
            Key("choices", "A table for each, below."),
            _may("default", "The choice that is made at first; else the first one."),
        ),
        "[options.corners]",
    ),
    Part(
        "options.*.choices.*",
        "Choices",
        "One table for each choice of an option.",
        (
            _may("says", _SAYS),
            _may(
                "sets",
                "Values that it brings: of a measure, which may then be left empty, or of a name of its own, "
                "which every choice must set.",
                '{ "tape width" = { in = "1", cm = "2.5" } }',
            ),
        ),
        "[options.corners.choices.sewn]",
    ),
    Part(
        "amounts",
        "Amounts",
        "Formulas with a name, for what is used more than once. They may read each other.",
        shown="[amounts]",
    ),
    Part(
        "pieces.*",
        "Pieces",
        "What is cut. Each gives two names to the formulas: “panel width” and “panel height”.",
        (
            Key("from", "The material that it is cut from."),
            Key("cut", "How many: a number or a formula, in quotes."),
            Key("width", "Its cut size across, allowances and all: a formula."),
            Key("height", "Its cut size from top to bottom: a formula."),
            _may("says", "What is to know of it."),
            _may(
                "upright",
                "With which choices a layout may not turn it.",
                '{ "exterior print" = ["one way"] }',
            ),
            _may("outline", "Its corners, where it is no rectangle: below."),
            _may("marks", "A table for each, below."),
            _WHEN,
        ),
        "[pieces.panel]",
    ),
    Part(
        "pieces.*.outline.[]",
        "Outlines",
        "The corners of a piece in order, three at least, each in braces: a list behind “outline”. The edges "
        "between them are straight, or quarter circles.",
        (
            Key(
                "across",
                "From the left edge: a formula, or “0”.",
                code='{ across = "panel width", down = "0" }',
            ),
            Key("down", "From the top edge: a formula, or “0”."),
            _may("arc", "“left” or “right”: a quarter circle leads to this corner, turning that way."),
            _may(
                "name",
                "Gives the formulas two names, for how far across and how far down it lies: “panel neck "
                "across” and “panel neck down”. So a truing can walk along the edges.",
            ),
        ),
    ),
    Part(
        "pieces.*.marks.*",
        "Marks",
        "Lines and points on a piece, measured from its raw edges: “down” alone is a line across, “across” "
        "alone a line down the piece, both are a point, “inside” is a line all round.",
        (
            Key("kind", f"{_one_of(MarkKind)}."),
            _may("down", "From the top edge: a formula."),
            _may("across", "From the left edge: a formula."),
            _may("from", "Where a line begins: a formula. Else at the edge."),
            _may("to", "Where it ends."),
            _may("inside", "From every edge: a formula."),
            _may("says", "What it is for."),
            _WHEN,
        ),
        '[pieces.panel.marks."front wall line"]',
    ),
    Part(
        "truings.[]",
        "Truings",
        "Two ways to measure the same thing. Each is proved for every size and every choice before the "
        "pattern can be published: that the cut pieces give the finished size, or that two edges which are "
        "sewn together are equally long.",
        (
            Key("says", "What is measured: “across the base”."),
            Key("one", "A formula that begins with the cut pieces."),
            Key("other", "A formula of what was promised."),
            _WHEN,
        ),
        "[[truings]]",
    ),
    Part(
        "checks.[]",
        "Checks",
        "What must be so for a size to be sewn, or had better be.",
        (
            Key("level", f"{_one_of(Level)}."),
            Key("says", "What is well when it holds."),
            Key("holds", "A formula that compares: height ≥ depth."),
            Key(
                "otherwise",
                "What the customer reads when it does not: what is wrong, why, and what to do. The nearest "
                "size that works is found by itself.",
            ),
            _WHEN,
        ),
        "[[checks]]",
    ),
    Part(
        "materials.*",
        "Materials",
        "What to buy and have at hand. How much cloth it takes is worked out from the layouts.",
        (
            Key("kind", f"{_one_of(MaterialKind)}."),
            _may("tint", f"How its pieces are drawn: {_one_of(Tint)}."),
            _may("says", "Which sort, and how many of what is counted."),
            _may("amount", "Of what is sold by length, and no piece is cut from: a formula."),
            _WHEN,
        ),
        "[materials.felt]",
    ),
    Part(
        "tells.[]",
        "Tells",
        "What else the customer should know of the size: how flat it folds, what it holds.",
        (Key("says", "A sentence or two, with formulas in braces."), _WHEN),
        "[[tells]]",
    ),
    Part(
        "steps.[]",
        "Steps",
        "One thing to do each, in the order of work.",
        (
            Key("title", "What is done, in a few words."),
            Key("does", "The instruction, with formulas in braces: the book has the numbers in their place."),
            _may("shows", "The pieces that are drawn beside it."),
            _may("cautions", "The names of the cautions that belong to it."),
            _may("work", "What it does to the cloth, so that it is proved and its figure drawn: below."),
            _WHEN,
        ),
        "[[steps]]",
    ),
    Part(
        "cautions.*",
        "Cautions",
        "What can hurt somebody. Each stands once in front of the book, and in full at its first step.",
        (Key("says", "What to mind, and whose word counts: the maker’s, the law’s."), _WHEN),
        "[cautions.blade]",
    ),
    Part(
        "sizes.*",
        "Named sizes",
        "The size chart. What a size does not name is at its default.",
        (
            Key("in", "Its measures in inches, each in quotes."),
            Key("cm", "The same ones in centimetres."),
        ),
        '[sizes."For keys"]',
    ),
)

# Each is a formula that a recipe could hold, and what it does.
FORMULAS: Final = (
    (
        "width + depth + 2 × seam allowance",
        "Names, numbers, + − × ÷. A name is read with its spaces, without its capitals.",
    ),
    ("(width + depth) ÷ 2 − 1/4 × depth", "Brackets. A fraction is written without spaces: 1/4, 7 1/2, ½."),
    ("√(width² + depth²)", "Squares, cubes (³) and roots."),
    ("π × diameter ÷ 2", "π is kept as π: a truing that needs it is proved exactly."),
    ("smaller of (width, depth, 2 × height)", "The smallest, or the largest, of several: “larger of”."),
    ("round up (width ÷ 3, to pocket step)", "Rounded to a multiple of something, up or down: “round down”."),
    (
        "height ≥ depth ÷ 2 + seam allowance and depth > pocket step",
        "Only checks compare: < ≤ > ≥ = ≠, with “and” and “or”.",
    ),
)
