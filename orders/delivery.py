"""What an order's page shows of its files: how far they are, and by which pass they open."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.safestring import SafeString

from orders.further import FurtherFile, further_files
from orders.models import CorrectedLine, DownloadPass, IssuedDocument, Order, OrderLine
from orders.models.payments import granted
from orders.own_cloth import prints_of
from orders.passes import current_pass, token_of_pass
from orders.to_buy import ToBuy, to_buy
from patterns.documents.words import UNIT_WORDS
from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units
from patterns.own_cloth import ROLES
from patterns.size_page import drawing

# While files are being made the page asks again; often only so long as one may be ready any moment.
SECONDS_SOON, SECONDS_LATER = 2, 20


@dataclass(frozen=True, slots=True)
class Files:
    """The files of one line. ask_again: after how many seconds the page asks how far they are; 0: never.

    units: in words, where the line is there in both systems and this is the second; else empty.
    """

    line: OrderLine
    documents: tuple[IssuedDocument, ...]
    ask_again: int
    units: str

    @property
    def made(self) -> int:
        return sum(document.is_issued for document in self.documents)

    @property
    def are_all_made(self) -> bool:
        return self.made == len(self.documents)

    @property
    def have_failed(self) -> bool:
        return any(document.has_failed for document in self.documents)


@dataclass(frozen=True, slots=True)
class PassShown:
    """An order's pass, and the token in the links that it opens; none where it opens nothing any more."""

    download_pass: DownloadPass
    token: str
    has_ended: bool

    @property
    def is_used_up(self) -> bool:
        return self.download_pass.is_used_up


@dataclass(frozen=True, slots=True)
class LineShown:
    """A line with its size. other_units: which it can be had in as well, in words; empty if it is there.

    correction: what is another in it, where it takes the place of an earlier line. corrected: the line that
    takes the place of this one.
    to_buy: the list that goes with it.
    """

    line: OrderLine
    sized: SizedPattern
    drawing: SafeString | None
    files: Files
    other_units: str
    further: Sequence[FurtherFile]
    correction: CorrectedLine | None
    corrected: OrderLine | None
    to_buy: ToBuy

    @property
    def units(self) -> str:
        return UNIT_WORDS[self.sized.units]


def granted_line(token: str, position: int) -> OrderLine:
    """Return the line of an order that is paid, or was free. Raises Http404 for any other."""
    lines = OrderLine.objects.filter(
        granted("order__"), order__in=Order.objects.behind(token), position=position
    )
    return get_object_or_404(lines.select_related("order", "beside", "revision"))


def pass_shown(order: Order, now: datetime) -> PassShown:
    one = current_pass(order, now)
    return PassShown(one, token_of_pass(one) if one.is_good(now) else "", one.has_ended(now))


def files_of(line: OrderLine, now: datetime) -> Files:
    """Return what was promised with a line, in the models' order. A query, unless documents were brought."""
    kinds, papers = IssuedDocument.Kind.values, IssuedDocument.Paper.values
    documents = sorted(
        (each for each in line.documents.all() if not each.is_further),
        key=lambda each: (kinds.index(each.kind), papers.index(each.paper)),
    )
    units = UNIT_WORDS[Units(line.sized["units"])] if line.is_in_other_system else ""
    return Files(line, tuple(documents), _ask_again(documents, now), units)


def _ask_again(documents: Sequence[IssuedDocument], now: datetime) -> int:
    wanted = [document for document in documents if not document.is_issued and not document.is_given_up(now)]
    if not wanted:
        return 0
    return SECONDS_LATER if all(document.has_failed for document in wanted) else SECONDS_SOON


def lines_shown(order: Order, now: datetime, token: str) -> list[LineShown]:
    """Return the order's lines, each followed by itself corrected, then in the other unit system."""
    lines = list(order.lines.all())
    by_pk = {line.pk: line for line in lines}
    for line in lines:
        if line.corrects_id:
            line.corrects = by_pk[line.corrects_id]
    paths = {line.pk: _path(line, by_pk) for line in lines}
    lines.sort(key=lambda line: paths[line.pk])
    turned = {paths[line.pk][0] for line in lines if line.beside_id}
    corrected = {line.corrects_id: line for line in lines if line.corrects_id}
    corrections = {each.made_id: each for each in CorrectedLine.objects.filter(made__in=by_pk)}
    return [
        _line_shown(
            line,
            now,
            token,
            may_turn=paths[line.pk][0] not in turned and line.pk not in corrected,
            correction=corrections.get(line.pk),
            corrected=corrected.get(line.pk),
        )
        for line in lines
    ]


def _path(line: OrderLine, by_pk: Mapping[int, OrderLine]) -> tuple[tuple[bool, int], ...]:
    """The way from what was sold to a line: over corrections, which come first, and over other units."""
    before = line.corrects_id or line.beside_id
    last = (line.beside_id is not None, line.pk)
    return (*_path(by_pk[before], by_pk), last) if before else (last,)


def _pictures(line: OrderLine, token: str) -> dict[str, str]:
    """Return where the pictures of the customer's own cloth are, behind the order's link."""
    return {role: reverse("orders:own-cloth", args=[token, line.position, role]) for role in ROLES}


def _line_shown(
    line: OrderLine,
    now: datetime,
    token: str,
    *,
    may_turn: bool,
    correction: CorrectedLine | None,
    corrected: OrderLine | None,
) -> LineShown:
    sized = line.sized_pattern
    (other,) = set(UNIT_WORDS) - {sized.units}
    return LineShown(
        line,
        sized,
        drawing(sized, prints_of(line, _pictures(line, token))),
        files_of(line, now),
        UNIT_WORDS[other] if may_turn else "",
        further_files(line),
        correction,
        corrected,
        to_buy(line),
    )
