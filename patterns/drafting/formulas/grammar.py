"""Reads a formula: plain arithmetic as it is written on paper, to a tree.

One grammar (LALR, with a lexer that knows no context) and one table of terminals, which the search
for what is wrong in a formula (`slips`) uses too. Names are not looked up here.
"""

import re
import unicodedata
from functools import cache
from typing import NoReturn

from lark import Lark, Token, Transformer, v_args
from lark.exceptions import UnexpectedInput, UnexpectedToken, VisitError

from patterns.drafting.errors import FormulaError, Mistake
from patterns.drafting.numerals import PATTERN as NUMERAL
from patterns.drafting.numerals import VULGAR, NumeralError, read_numeral

from .slips import slips
from .tree import (
    Both,
    Choice,
    Comparison,
    Difference,
    Either,
    Name,
    Negative,
    Node,
    Number,
    Pi,
    Power,
    Product,
    Quotient,
    Root,
    Rounding,
    Sum,
)

# A formula of a real recipe has under 100 characters; 500 leaves room and keeps reading under a millisecond.
MOST_CHARACTERS = 500
# Every reader of the tree calls itself for what stands in a bracket: 32 is far from Python's limit.
MOST_BRACKETS = 32

RESERVED = ("and", "or", "not", "to", "x", "in", "cm", "mm", "m", "yd", "pi")
PHRASES = ("smaller of", "larger of", "round up", "round down")

# \w would take ² ³ ½ and the like for letters; π is a number. What is left is looked at in `_name`.
_LETTER = rf"[^\W\d_π²³¹{''.join(VULGAR)}]"
_INSIDE = rf"(?:{_LETTER}|[0-9])"
_END = rf"(?!{_INSIDE}|['’]{_INSIDE})"


def _phrase(words: str) -> str:
    return words.replace(" ", r"[ \t]+") + _END


_KEPT = "".join(f"(?!{_phrase(words)})" for words in (*RESERVED, *PHRASES))
_WORD = rf"{_KEPT}{_LETTER}(?:{_INSIDE}|['’](?={_INSIDE}))*"

# In the order in which they are tried. A slash directly between digits belongs to a number, and one with
# a space on one side only could mean either: neither is a division.
TERMINALS = {
    "NUMBER": NUMERAL,
    "SMALLER": _phrase("smaller of"),
    "LARGER": _phrase("larger of"),
    "ROUND_UP": _phrase("round up"),
    "ROUND_DOWN": _phrase("round down"),
    "AND": _phrase("and"),
    "OR": _phrase("or"),
    "TO": _phrase("to"),
    "UNIT": rf"(?:in|cm|mm|m|yd){_END}|[\"″]",
    "PI": rf"π|pi{_END}",
    "NAME": rf"{_WORD}(?:[ \t]+{_WORD})*",
    "COMPARE": r"<=|>=|<>|[<≤>≥=≠]",
    "PLUS": r"\+",
    "MINUS": r"[−-]",
    "TIMES": r"[×*]",
    "DIVIDE": r"÷|(?<=[ \t])/(?=[ \t])|(?<![0-9 \t])/|/(?![0-9 \t])",
    "EXPONENT": r"[²³]",
    "ROOT": r"√",
    "OPEN": r"\(",
    "CLOSE": r"\)",
    "COMMA": r",(?=[ \t])",
}

_RULES = r"""
?start: either
?either: both | either OR both
?both: comparison | both AND comparison
?comparison: sum | sum COMPARE sum
?sum: product | sum PLUS product -> plus | sum MINUS product -> minus
?product: signed | product TIMES signed -> times | product DIVIDE signed -> divided
?signed: power | MINUS power -> negative
?power: atom | atom EXPONENT
?atom: NUMBER UNIT? -> number
     | NAME -> name
     | PI -> pi
     | OPEN either CLOSE -> bracket
     | ROOT OPEN sum CLOSE -> root
     | (SMALLER | LARGER) OPEN sum (COMMA sum)+ CLOSE -> choice
     | (ROUND_UP | ROUND_DOWN) OPEN sum COMMA TO sum CLOSE -> rounding
"""

_SIGNS = {"<=": "≤", ">=": "≥", "<>": "≠"}
_MARKS = {'"': "in", "″": "in"}


@v_args(inline=True)
class _Builder(Transformer[Token, Node]):
    """Makes the tree while the text is read."""

    def either(self, left: Node, sign: Token, right: Node) -> Node:
        return Either(left, right, at=_column(sign))

    def both(self, left: Node, sign: Token, right: Node) -> Node:
        return Both(left, right, at=_column(sign))

    def comparison(self, left: Node, sign: Token, right: Node) -> Node:
        return Comparison(_SIGNS.get(sign, str(sign)), left, right, at=_column(sign))  # type: ignore[arg-type]

    def plus(self, left: Node, sign: Token, right: Node) -> Node:
        return Sum(left, right, at=_column(sign))

    def minus(self, left: Node, sign: Token, right: Node) -> Node:
        return Difference(left, right, at=_column(sign))

    def times(self, left: Node, sign: Token, right: Node) -> Node:
        return Product(left, right, at=_column(sign))

    def divided(self, left: Node, sign: Token, right: Node) -> Node:
        return Quotient(left, right, at=_column(sign))

    def negative(self, sign: Token, of: Node) -> Node:
        return Negative(of, at=_column(sign))

    def power(self, base: Node, sign: Token) -> Node:
        return Power(base, 2 if sign == "²" else 3, at=_column(sign))

    def number(self, numeral: Token, unit: Token | None = None) -> Node:
        try:
            value = read_numeral(str(numeral))
        except NumeralError as error:
            _refuse(str(error), _column(numeral))
        written = str(unit).lower() if unit else None
        return Number(value, _MARKS.get(written, written) if written else None, at=_column(numeral))

    def name(self, words: Token) -> Node:
        return Name(_name(words), at=_column(words))

    def pi(self, sign: Token) -> Node:
        return Pi(at=_column(sign))

    def bracket(self, _open: Token, inner: Node, _close: Token) -> Node:
        return inner

    def root(self, sign: Token, _open: Token, of: Node, _close: Token) -> Node:
        return Root(of, at=_column(sign))

    def choice(self, which: Token, _open: Token, *rest: Node | Token) -> Node:
        among = tuple(node for node in rest if not isinstance(node, Token))
        return Choice("smaller" if which.type == "SMALLER" else "larger", among, at=_column(which))

    def rounding(self, way: Token, _o: Token, of: Node, _c: Token, _t: Token, step: Node, _e: Token) -> Node:
        return Rounding("up" if way.type == "ROUND_UP" else "down", of, step, at=_column(way))


def _column(token: Token) -> int:
    return (token.start_pos or 0) + 1


def _refuse(message: str, column: int) -> NoReturn:
    raise FormulaError((Mistake(message, column),))


def _name(words: Token) -> str:
    for offset, sign in enumerate(words):
        if not sign.isascii() and sign != "’" and not unicodedata.category(sign).startswith("L"):
            _refuse(f"“{sign}” is not a letter. Write names with letters only.", _column(words) + offset)
    return tidy_name(words)


def tidy_name(words: str) -> str:
    """Return a name as the tree holds it: lower case, one space between its words.

    >>> tidy_name("Seam  Allowance")
    'seam allowance'
    """
    return " ".join(words.lower().replace("’", "'").split())


@cache
def _parser() -> Lark:
    lines = [_RULES]
    for rank, (name, pattern) in enumerate(TERMINALS.items()):
        escaped = re.sub(r"(?<!\\)/", r"\\/", pattern)
        lines.append(f"{name}.{len(TERMINALS) - rank}: /{escaped}/i")
    lines += [r"SPACE: /[ \t]+/", "%ignore SPACE"]
    return Lark(
        "\n".join(lines), parser="lalr", lexer="basic", transformer=_Builder(), maybe_placeholders=False
    )


def read(text: str) -> Node:
    """Return the tree of a formula.

    text: at most 500 characters, brackets at most 32 deep.
    Raises FormulaError with what was found wrong: column, what stood there, what to write.
    """
    text = unicodedata.normalize("NFC", text)
    _check_bounds(text)
    try:
        return _parser().parse(text)  # type: ignore[return-value]
    except VisitError as error:
        if isinstance(error.orig_exc, FormulaError):
            raise error.orig_exc from None
        raise
    except UnexpectedInput as error:
        raise FormulaError(slips(text, TERMINALS, RESERVED, _stopped_at(error, text))) from None


def _stopped_at(error: UnexpectedInput, text: str) -> int:
    is_end = isinstance(error, UnexpectedToken) and error.token.type == "$END"
    return len(text) + 1 if is_end or error.pos_in_stream is None else error.pos_in_stream + 1


def _check_bounds(text: str) -> None:
    if not text.strip():
        _refuse("There is no formula here. Write one, like width + 2 × seam allowance.", 1)
    if len(text) > MOST_CHARACTERS:
        message = f"The formula has {len(text):,} characters; {MOST_CHARACTERS} are the most."
        _refuse(f"{message} Give parts of it names of their own.", MOST_CHARACTERS + 1)
    depth = 0
    for column, sign in enumerate(text, start=1):
        depth += (sign == "(") - (sign == ")")
        if depth > MOST_BRACKETS:
            _refuse(
                f"Brackets stand more than {MOST_BRACKETS} deep. Give parts of it names of their own.", column
            )
