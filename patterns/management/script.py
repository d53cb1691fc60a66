"""What the commands have in common that scripts call: three exit codes, one line for an error, JSON."""

import argparse
import io
import json
import sys
from pathlib import Path
from typing import Any, NoReturn

from django.core.management.base import BaseCommand, CommandError, CommandParser, DjangoHelpFormatter

from patterns.drafting.errors import DraftingError
from patterns.drafting.recipe import Recipe
from patterns.drafting.recipe_text import MOST_BYTES, read_recipe
from patterns.drafting.spelling import nearest_spelling
from patterns.drafting.units import Units
from patterns.management.printing import Json
from patterns.starters import read_starter, slugs

# Exit codes beside 0, answered: understood, but the answer is no; and not understood.
NO, UNREADABLE = 1, 2
# As much of a word of the command line as a message repeats.
MOST_SHOWN = 80


class RecipeNameError(DraftingError):
    """A RECIPE that is no starter, and no recipe text either."""


class ScriptParser(CommandParser):
    """Takes words and options in any order; its mistakes are one line."""

    def parse_args(self, args: Any = None, namespace: Any = None) -> Any:
        return self.parse_intermixed_args(args, namespace)

    def error(self, message: str) -> NoReturn:
        line = one_line(message)
        if self.called_from_command_line:
            self.exit(UNREADABLE, f"{line}\n")
        raise CommandError(line, returncode=UNREADABLE)


class Once(argparse.Action):
    """An option that takes one value; twice is a mistake, not the last one silently."""

    is_given = False

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: Any,
        option_string: str | None = None,
    ) -> None:
        if self.is_given:
            parser.error(f"{option_string} is given twice. Give it once.")
        self.is_given = True
        setattr(namespace, self.dest, values)


class ScriptCommand(BaseCommand):
    """A command about a RECIPE; a subclass answers. It needs no database and no checks of the site.

    It ends with 0, with 1 if the answer is no, and with 2 if what was typed cannot be understood: then it
    prints nothing but one line, as an error.
    """

    requires_system_checks: list[str] = []
    _called_from_command_line = False

    def create_parser(self, prog_name: str, subcommand: str, **kwargs: Any) -> CommandParser:
        plain = super().create_parser(prog_name, subcommand, add_help=False, **kwargs)
        return ScriptParser(
            prog=plain.prog,
            description=plain.description,
            formatter_class=DjangoHelpFormatter,
            called_from_command_line=plain.called_from_command_line,
            parents=[plain],
        )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "recipe", metavar="RECIPE", help="A starter's slug, or the path of a recipe text."
        )
        parser.add_argument("--json", action="store_true", help="Answer scripts: one object of JSON.")

    def run_from_argv(self, argv: list[str]) -> None:
        for stream in (sys.stdout, sys.stderr):
            if isinstance(stream, io.TextIOWrapper):
                stream.reconfigure(encoding="utf-8")  # × and − are written whatever the machine's language is
        super().run_from_argv(argv)

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            is_yes = self.answer(**options)
        except DraftingError as error:
            self.refuse(error)
        if not is_yes:
            raise SystemExit(NO)

    def answer(self, **options: Any) -> bool:
        """Print the answer; return False if it is no. Raises DraftingError, with nothing printed yet."""
        raise NotImplementedError

    def write_json(self, data: Json) -> None:
        self.stdout.write(json.dumps(data, ensure_ascii=False))

    def refuse(self, error: DraftingError) -> NoReturn:
        line = one_line(str(error))
        if not self._called_from_command_line:
            raise CommandError(line, returncode=UNREADABLE) from error
        self.stderr.write(line)
        raise SystemExit(UNREADABLE)


def add_size_arguments(parser: CommandParser) -> None:
    """Take a size: `[name=value …] [--option name=choice …] [--units in|cm]`."""
    parser.add_argument(
        "measures", metavar="name=value", nargs="*", help="A measure, like width=8½ or width=21.5cm."
    )
    add_choice_arguments(parser)


def add_choice_arguments(parser: CommandParser) -> None:
    """Take what is chosen for all sizes alike: `[--option name=choice …] [--units in|cm]`."""
    parser.add_argument(
        "--option", metavar="name=choice", action="append", default=[], help="A choice, once for each."
    )
    parser.add_argument(
        "--units", action=Once, choices=[units.value for units in Units], default=Units.INCHES.value
    )


def read_recipe_named(name: str) -> tuple[str, Recipe]:
    """Return the slug and the recipe of a starter's slug or of the path of a text.

    Raises RecipeNameError: there is no such thing. RecipeTextError: the text cannot be used.
    """
    if name in slugs():
        return name, read_starter(name)
    path = Path(name)
    try:
        return path.stem.replace("_", "-"), read_recipe(_bytes_of(path))
    except (OSError, ValueError) as error:
        if isinstance(error, DraftingError):
            raise
        raise RecipeNameError(_no_such_recipe(name, error)) from error


def _bytes_of(path: Path) -> bytes:
    with path.open("rb") as file:
        text = file.read(MOST_BYTES + 1)
    if len(text) > MOST_BYTES:
        raise RecipeNameError(
            f"“{path}” is longer than a recipe text may be, {MOST_BYTES:,} bytes. Shorten it."
        )
    return text


def _no_such_recipe(name: str, error: Exception) -> str:
    shown = name if len(name) <= MOST_SHOWN else f"{name[:MOST_SHOWN]}…"
    if isinstance(error, FileNotFoundError):
        near = nearest_spelling(name, slugs())
        mend = f"Did you mean {near}?" if near else f"The starters are: {', '.join(slugs())}."
        return f"“{shown}” is neither a starter nor a file. {mend}"
    reason = error.strerror if isinstance(error, OSError) else None
    return (
        f"“{shown}” cannot be read: {reason or 'it is no path'}. Name a starter or the file of a recipe text."
    )


def one_line(message: str) -> str:
    """Return a message as one line, without anything that would steer a terminal."""
    line = " ".join(message.split())
    return "".join(sign if sign.isprintable() else "�" for sign in line)
