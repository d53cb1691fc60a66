"""`manage.py proofs DIR`: every page of every book as pictures to look at, with all that is found wrong."""

import multiprocessing
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain
from pathlib import Path
from typing import Any, get_args

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.template.loader import render_to_string

from patterns.documents.kinds import BookKind
from patterns.documents.proofs.boxes import Box
from patterns.documents.proofs.cases import Case, every_case, few_cases
from patterns.documents.proofs.faults import Fault
from patterns.documents.proofs.proof import proof
from patterns.drafting.errors import DraftingError
from patterns.management.pictures import contact_sheet, framed_page
from patterns.starters import read_starter, slugs

# A process makes so many books and ends: its memory stays that of a few books, however many there are.
BOOKS_A_PROCESS = 8
# Of one book so many pages are shown by themselves.
MOST_FRAMED = 12


@dataclass(frozen=True, slots=True)
class Seen:
    """What is told of one book, and the files that show it, beside each other in one folder."""

    case: Case
    size: str
    pages: int
    faults: tuple[Fault, ...]
    document: str
    sheet: str
    framed: tuple[str, ...]


class Command(BaseCommand):
    help = "Makes every book, looks for faults, and writes all pages as pictures. May run twice."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("folder", metavar="DIR", help="Where proofs.html and the pictures are written.")
        parser.add_argument(
            "--recipe", action="append", choices=slugs(), help="Only this recipe, once for each wanted."
        )
        parser.add_argument(
            "--kind", action="append", choices=get_args(BookKind), help="Only this form of the book."
        )
        parser.add_argument(
            "--few", action="store_true", help="Each recipe once, then all else in pairs, not in every way."
        )
        parser.add_argument("--jobs", type=int, default=1, help="So many books at a time.")

    def handle(self, *args: Any, **options: Any) -> None:
        folder = Path(options["folder"])
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise CommandError(f"“{folder}” cannot be written: {error.strerror}.") from error
        make = few_cases if options["few"] else every_case
        kinds = options["kind"] or get_args(BookKind)
        cases = list(chain.from_iterable(make(options["recipe"] or slugs(), kind) for kind in kinds))
        seen = []
        for at, each in enumerate(_look(folder, cases, max(options["jobs"], 1)), 1):
            seen.append(each)
            for fault in each.faults:
                self.stdout.write(f"{each.case.name}, {fault}")
            self.stderr.write(f"{at} of {len(cases)}: {each.case.name}, {each.pages} pages", ending="\n")
        _write_page(folder, seen)
        count = sum(len(each.faults) for each in seen)
        pages = sum(each.pages for each in seen)
        self.stdout.write(f"{len(seen)} books, {pages} pages, {count} faults: {folder / 'proofs.html'}")
        if count:
            raise SystemExit(1)


def _look(folder: Path, cases: list[Case], jobs: int) -> Iterator[Seen]:
    """Yield what is seen of each book, in order, made in processes that end after a few."""
    work = [(folder, case) for case in cases]
    with multiprocessing.get_context("fork").Pool(jobs, maxtasksperchild=BOOKS_A_PROCESS) as pool:
        try:
            yield from pool.imap(_seen, work)
        except DraftingError as error:
            raise CommandError(str(error)) from error


def _seen(work: tuple[Path, Case]) -> Seen:
    folder, case = work
    made = proof(case, read_starter(case.recipe))
    if not made.document:
        return Seen(case, made.size, 0, made.faults, "", "", ())
    document, sheet = folder / f"{case.name}.pdf", folder / f"{case.name}.png"
    document.write_bytes(made.document)
    pages = contact_sheet(document, sheet)
    framed = tuple(_framed(document, made.faults))
    return Seen(case, made.size, pages, made.faults, document.name, sheet.name, framed)


def _framed(document: Path, faults: tuple[Fault, ...]) -> Iterator[str]:
    """Write the first pages with faults by themselves; yield their files."""
    for number in sorted({fault.page for fault in faults if fault.page})[:MOST_FRAMED]:
        boxes: list[Box] = [fault.box for fault in faults if fault.page == number and fault.box is not None]
        target = document.with_name(f"{document.stem}-page-{number}.png")
        framed_page(document, number, boxes, target)
        yield target.name


def _write_page(folder: Path, seen: list[Seen]) -> None:
    context = {"books": seen, "wrong": [each for each in seen if each.faults]}
    (folder / "proofs.html").write_text(render_to_string("proofs/proofs.html", context), encoding="utf-8")
