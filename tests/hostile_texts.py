"""Recipe texts made to do harm: to be slow, to take memory, to look different from what they say."""

from collections.abc import Callable

_TOP = """\
title = "Mat"
language = "en"
summary = "A mat."
skill = "Beginner"
time = "1 hour"
revised = "2026-11-20"

[finished]
form = "open basket"
width = "a"
height = "a"
depth = "a"

[measures.a]
role = "size"
says = "A."
in = { least = "1", most = "20", default = "9", step = "1/4" }
cm = { least = "1", most = "50", default = "23", step = "0.5" }
"""


def letters(number: int) -> str:
    """A name for each number, letters only: hostile names must pass as names."""
    letters = ""
    while number >= 0:
        letters = chr(ord("a") + number % 26) + letters
        number = number // 26 - 1
    return f"n{letters}"


def _up_to(size: int, line: Callable[[int], str]) -> str:
    lines, total = [], 0
    while total < size:
        lines.append(line(len(lines)))
        total += len(lines[-1].encode()) + 1
    return "\n".join(lines[:-1]) + "\n"


def _amounts(formula: str) -> str:
    """As many names as there may be, each for this formula."""
    return "[amounts]\n" + _chain(lambda number: formula, 298)


def _chain(needs: Callable[[int], str], count: int) -> str:
    return "\n".join(f'{letters(number)} = "{needs(number)}"' for number in range(count))


_ROOM = 199_000 - len(_TOP)

HOSTILE: dict[str, str | bytes] = {
    "5 MB": _TOP + "# more\n" * 800_000,
    "5 MB of bytes": b"\xff" * 5_000_000,
    "one line": 'title = "' + "a" * 190_000 + '"',
    "a dotted key of 60 KB": ".".join("a" for _ in range(30_000)) + " = 1",
    "dotted keys in every line": _up_to(_ROOM, lambda number: ".".join(["a"] * 990) + f".a{number} = 1"),
    "dotted headers in every line": _up_to(
        _ROOM, lambda number: f"[b{number}." + ".".join(["a"] * 990) + "]"
    ),
    "quoted dots": _up_to(_ROOM, lambda number: '"".' * 600 + f"a{number} = 1"),
    "deep lists": "a = " + "[" * 100_000,
    "deep lists over lines": "a = " + "[\n" * 90_000,
    "deep braces": "a = " + "{a=" * 600 + "1" + "}" * 600,
    "wide lists": _up_to(_ROOM, lambda number: f"a{number} = [" + "[]," * 600 + "]"),
    "many keys": _up_to(_ROOM, lambda number: f"a{number}=1"),
    "many headers": _up_to(_ROOM, lambda number: f"[a{number}.a.a.a]"),
    "many listed tables": _up_to(_ROOM, lambda number: "[[steps]]"),
    "many unknown keys": _TOP + _up_to(_ROOM, lambda number: f'tilte{number} = "a"'),
    "the same key": _TOP + _up_to(_ROOM, lambda number: 'a = "a"'),
    "NULs": "title = " + "\x00" * 10_000,
    "lone surrogates": 'title = "\ud800"',
    "lone surrogates in bytes": b'title = "\xed\xa0\x80"',
    "UTF-16": 'title = "Mat"'.encode("utf-16"),
    "byte order marks inside": _TOP + "\ufeff" * 600,
    "combining marks": _up_to(_ROOM // 2, lambda number: '"' + "\u0315\u0300" * 490 + '" = 1'),
    "turned direction": _TOP + 'note = "\u202etext"',
    "escapes": _up_to(_ROOM, lambda number: f'a{number} = "' + '\\"' * 900 + '"'),
    "unclosed texts": _up_to(_ROOM, lambda number: 'a = """\\"'),
    "unclosed one-line texts": _up_to(_ROOM, lambda number: 'a = "'),
    "quotes": '"' * 1_999 + "\n" + "'" * 1_999,
    "backslashes": _up_to(_ROOM, lambda number: f'a{number} = "' + "\\" * 1_801 + '"'),
    "huge numbers": _up_to(_ROOM, lambda number: f"a{number} = " + "9" * 1_900),
    "huge exponents": "a = 1e999999999\nb = -9e99999999999999999999",
    "a huge number in quotes": _TOP.replace('"20"', f'"{"9" * 1_900}"'),
    "brackets in a formula": _TOP + '[amounts]\nb = "' + "(" * 450 + '"',
    "long formulas": _TOP + _amounts("a+" * 240 + "a"),
    "unknown names": _TOP + _amounts("+".join(f"zz{letters(each)}" for each in range(80))),
    "unknown names beside many known ones": _TOP
    + "[constants]\n"
    + "\n".join(f'"some {letters(number)} name" = "1"' for number in range(297))
    + '\n[amounts]\nb = "'
    + "+".join(f"soma {letters(number)} nam" for number in range(30))
    + '"',
    "braces": _TOP + _up_to(_ROOM, lambda number: '[[tells]]\nsays = "' + "{" * 900 + "}" * 900 + '"'),
    "empty braces": _TOP + _up_to(_ROOM, lambda number: '[[tells]]\nsays = "' + "{}" * 900 + '"'),
    "formulas in braces": _TOP + _up_to(_ROOM, lambda number: '[[tells]]\nsays = "' + "{a}" * 600 + '"'),
    "a long circle": _TOP + "[amounts]\n" + _chain(lambda number: letters((number + 1) % 298), 298),
    "all in circles": _TOP
    + "[amounts]\n"
    + _chain(lambda number: "+".join(letters((number + each) % 298) for each in range(120)), 298),
    "a deep chain": _TOP
    + "[amounts]\n"
    + _chain(lambda number: "a" if number == 297 else f"2 × {letters(number + 1)}", 298),
    "squares of squares": _TOP
    + '[amounts]\nb = "a ÷ a + 1"\n'
    + _chain(lambda number: "(b × 7)³" if number == 0 else f"{letters(number - 1)}³", 200),
    "many pieces in every truing": _TOP
    + '[materials.cloth]\nkind = "fabric"\n'
    + "".join(
        f'[pieces.{letters(number)}]\nfrom="cloth"\ncut="1"\nwidth="a"\nheight="a"\n' for number in range(140)
    )
    + '[amounts]\nall = "'
    + "+".join(f"{letters(number)} width" for number in range(50))
    + '"\n'
    + '[[truings]]\nsays="a"\none="all"\nother="all"\n' * 900,
    "many cautions": _TOP
    + "".join(f'[cautions.{letters(number)}]\nsays="a"\n' for number in range(2_500))
    + '[[steps]]\ntitle="a"\ndoes="a"\ncautions=[\n'
    + "".join(f'"{letters(number)}e",\n' for number in range(2_000))
    + "]\n",
}
