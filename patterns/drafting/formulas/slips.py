"""What is wrong in a formula that could not be read, in words: column, what stood there, what to write.

Runs only after the parser has refused, so that it may look closely. It knows the slips that people
make; what it does not know is named by the place where the parser stopped.
"""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from patterns.drafting.errors import Mistake

_NUMBER_WORDS = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@dataclass(frozen=True, slots=True)
class _Token:
    kind: str
    text: str
    column: int


# What a look at the letters alone can tell, with the sentence for it.
_IN_THE_TEXT: tuple[tuple[str, Callable[[re.Match[str]], str]], ...] = (
    (
        r"[\x00-\x08\x0a-\x1f\x7f-\x9f\u2028\u2029]",
        lambda found: f"A control character (U+{ord(found[0]):04X}) stands here. Delete it.",
    ),
    (
        r"(?<![0-9.])[0-9]+,[0-9]+",
        lambda found: (
            f"“{found[0]}” is not a number. Write {found[0].replace(',', '.')} "
            f"or {found[0].replace(',', ', ')}."
        ),
    ),
    (r",(?![ \t0-9])", lambda found: "A comma needs a space after it. Write “, ”."),
    (
        r"[0-9]+[/⁄][0-9]+(?:[/⁄][0-9]+)+|[0-9]+[/⁄][0-9]+[²³]|[0-9]+/[ \t]+[0-9]+|[0-9]+[ \t]+/[0-9]+",
        lambda found: (
            f"“{found[0]}” could mean two things. Put brackets or spaces: 1/2 is one number, 1 / 2 divides."
        ),
    ),
    (
        r"[0-9]+\.[0-9]+/[0-9]+|[A-Za-z][0-9]+/[0-9]+",
        lambda found: f"“{found[0]}” could mean two things. Put spaces round the stroke to divide.",
    ),
    (r"(?<![0-9])\.[0-9]+", lambda found: f"“{found[0]}” begins with a point. Write 0{found[0]}."),
    (r"[0-9]+\.(?![0-9])", lambda found: f"“{found[0]}” ends with a point. Write {found[0][:-1]}."),
    (
        r"[0-9]+(?:\.[0-9]+)?e[+-]?[0-9]+",
        lambda found: f"“{found[0]}” is not read as a number. Write the number out.",
    ),
    (
        r"[0-9]+_[0-9_]*",
        lambda found: f"“{found[0]}” is not a number. Write {found[0].replace('_', '')}.",
    ),
    (
        r"[0-9][ \t]*x[ \t]*[0-9]",
        lambda found: f"“{found[0]}” is not read. Write {found[0][0]} × {found[0][-1]}.",
    ),
    (r"\*\*|\^", lambda found: f"“{found[0]}” is not used here. Write ² or ³, like width²."),
    (r"[²³]{2,}", lambda found: f"“{found[0]}” could mean two things. Put brackets, like (width²)²."),
    (r"[–—‒―‐‑]", lambda found: f"“{found[0]}” is a dash. Write − or - to take away."),
    (r"==|!=|=<|=>|<<|>>", lambda found: f"“{found[0]}” is not used here. Write =, ≠, ≤ or ≥."),
    (r"[\u00a0\u2000-\u200b\u202f\ufeff]", lambda found: "An unusual space stands here. Write a plain one."),
)


def slips(
    text: str, terminals: Mapping[str, str], reserved: Sequence[str], stopped_at: int
) -> tuple[Mistake, ...]:
    """Return the mistakes of a formula that cannot be read, in order, at least one.

    stopped_at: the column where the parser gave up.
    """
    found = [
        Mistake(sentence(match), match.start() + 1)
        for pattern, sentence in _IN_THE_TEXT
        for match in re.finditer(pattern, text)
    ]
    if not found:
        tokens = _tokens(text, terminals, reserved)
        found = list(_among(tokens)) or [_stopped(tokens, stopped_at)]
    return tuple(sorted(found, key=lambda mistake: mistake.column))


def _tokens(text: str, terminals: Mapping[str, str], reserved: Sequence[str]) -> list[_Token]:
    known = [f"(?P<{name}>{pattern})" for name, pattern in terminals.items()]
    kept = rf"(?P<RESERVED>(?:{'|'.join(reserved)})(?![^\W_]))"
    scan = re.compile(
        "|".join([*known, kept, r"(?P<SPACE>[ \t]+)", r"(?P<STRANGE>.)"]), re.IGNORECASE | re.DOTALL
    )
    return [
        _Token(match.lastgroup or "", match[0], match.start() + 1)
        for match in scan.finditer(text)
        if match.lastgroup != "SPACE"
    ]


def _among(tokens: Sequence[_Token]) -> Iterator[Mistake]:
    """Yield what is wrong between neighbours."""
    yield from _brackets(tokens)
    last_comparison = None
    for before, token, after in zip([None, *tokens], tokens, [*tokens[1:], None], strict=False):
        if token.kind == "STRANGE":
            yield Mistake(f"“{token.text}” has no meaning in a formula. Take it out.", token.column)
        elif token.kind == "RESERVED" or (token.kind == "TO" and not _follows_comma(before)):
            yield _reserved(before, token, after)
        elif token.kind == "UNIT" and (before is None or before.kind != "NUMBER"):
            yield _unit(before, token, after)
        elif before is not None and before.kind in _ENDS and token.kind in _BEGINS:
            yield _side_by_side(before, token, after)
        elif token.kind in _CALLS and (after is None or after.kind != "OPEN"):
            yield Mistake(
                f"“{token.text}” needs brackets. Write {token.text} {_CALLS[token.kind]}.", token.column
            )
        elif token.kind == "COMPARE" and last_comparison is not None:
            yield _chained(tokens, last_comparison, token)
        last_comparison = _last_comparison(last_comparison, token)


_ENDS = {"NUMBER", "NAME", "CLOSE", "PI", "UNIT", "EXPONENT"}
_BEGINS = {"NUMBER", "NAME", "OPEN", "PI", "ROOT", "SMALLER", "LARGER", "ROUND_UP", "ROUND_DOWN"}
_CALLS = {
    "ROOT": "(a)",
    "SMALLER": "(a, b)",
    "LARGER": "(a, b)",
    "ROUND_UP": "(a, to b)",
    "ROUND_DOWN": "(a, to b)",
}


def _follows_comma(before: _Token | None) -> bool:
    return before is not None and before.kind == "COMMA"


def _last_comparison(last: _Token | None, token: _Token) -> _Token | None:
    if token.kind == "COMPARE":
        return token
    return None if token.kind in {"AND", "OR", "OPEN", "CLOSE"} else last


def _brackets(tokens: Sequence[_Token]) -> Iterator[Mistake]:
    open_at: list[int] = []
    for token in tokens:
        if token.kind == "OPEN":
            open_at.append(token.column)
        elif token.kind == "CLOSE" and open_at:
            open_at.pop()
        elif token.kind == "CLOSE":
            yield Mistake("This bracket closes nothing. Take it out, or open one before.", token.column)
    for column in open_at:
        yield Mistake("This bracket is never closed. Write ) where it ends.", column)


def _reserved(before: _Token | None, token: _Token, after: _Token | None) -> Mistake:
    if token.text.lower() == "x":
        return Mistake("“x” between numbers is not read. Write ×.", token.column)
    words = [near.text for near in (before, after) if near is not None and near.kind == "NAME"]
    proposal = f" Call it “{' '.join(words)}”, say." if words else ""
    return Mistake(f"“{token.text}” has a meaning of its own and can be in no name.{proposal}", token.column)


def _unit(before: _Token | None, token: _Token, after: _Token | None) -> Mistake:
    message = f"“{token.text}” is a unit, and a unit stands directly after a number."
    if before is not None and before.kind == "NAME" and after is not None and after.kind == "NAME":
        return Mistake(
            f"{message} A name cannot hold it: call it “{before.text} {after.text}”, say.", token.column
        )
    return Mistake(f"{message} Take it out: a name has its unit already.", token.column)


def _side_by_side(before: _Token, token: _Token, after: _Token | None) -> Mistake:
    if before.kind == "NAME" and token.kind == "NUMBER":
        return _number_in_name(before, token, after)
    if before.kind == "NUMBER" and token.kind == "NUMBER":
        message = (
            f"“{before.text}” and “{token.text}” stand side by side. Write one number, or a sign between."
        )
        return Mistake(message, token.column)
    return Mistake(
        f"“{before.text}” and “{token.text}” stand side by side. Write × between, as in 2 × {token.text}."
        if before.kind == "UNIT"
        else f"“{before.text}” and “{token.text}” stand side by side. "
        f"Write × between: {before.text} × {token.text}.",
        token.column,
    )


def _number_in_name(before: _Token, token: _Token, after: _Token | None) -> Mistake:
    spelled = token.text
    if token.text.isdigit() and int(token.text) < len(_NUMBER_WORDS):
        spelled = _NUMBER_WORDS[int(token.text)]
    rest = f" {after.text}" if after is not None and after.kind == "NAME" else ""
    proposal = f"{before.text} {spelled}{rest}"
    return Mistake(
        f"A name cannot hold the number “{token.text}”. Call it “{proposal}”, or write × between.",
        token.column,
    )


def _chained(tokens: Sequence[_Token], first: _Token, second: _Token) -> Mistake:
    start = " ".join(token.text for token in tokens if token.column < first.column)
    middle = " ".join(token.text for token in tokens if first.column < token.column < second.column)
    end = " ".join(token.text for token in tokens if token.column > second.column)
    mend = f"{start} {first.text} {middle} and {middle} {second.text} {end}"
    return Mistake(f"Comparisons do not chain. Write {mend}.", second.column)


def _stopped(tokens: Sequence[_Token], column: int) -> Mistake:
    token = next((token for token in tokens if token.column >= column), None)
    if token is None:
        last = tokens[-1]
        return Mistake(f"The formula ends after “{last.text}”. Something is missing there.", last.column)
    call = _open_call(tokens, token)
    if call is not None:
        return Mistake(f"“{call.text}” is written {call.text} {_CALLS[call.kind]}.", token.column)
    if token.kind == "COMMA":
        return Mistake(
            "A comma parts what stands in “smaller of (a, b)” and the like. Take it out here.", token.column
        )
    return Mistake(f"“{token.text}” cannot stand here. Look at what comes before it.", token.column)


def _open_call(tokens: Sequence[_Token], stopped: _Token) -> _Token | None:
    """The call in whose brackets the parser stopped, if it stopped in one's."""
    calls: list[_Token | None] = []
    for before, token in zip([None, *tokens], tokens, strict=False):
        if token is stopped:
            return calls[-1] if calls else None
        if token.kind == "OPEN":
            calls.append(before if before is not None and before.kind in _CALLS else None)
        elif token.kind == "CLOSE" and calls:
            calls.pop()
    return None
