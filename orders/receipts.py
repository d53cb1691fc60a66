"""The receipt of an order as a PDF: who sold what to whom, when, and for how much."""

import hashlib
import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass

from django.utils import formats, timezone

from orders.models import Order, OrderLine
from patterns import kept as files
from patterns.documents.names import missing_from
from patterns.documents.one_sheet import one_sheet
from patterns.documents.paper import PAPERS, PaperName
from patterns.documents.versions import renderer_key
from patterns.documents.words import Words
from patterns.money import money
from studio.models import Shop

FOLDER = "receipts"
LANGUAGE = "en"


class PaperConverter:
    """A paper that sheets are made for, in an address."""

    regex = "|".join(PAPERS)

    def to_python(self, text: str) -> PaperName:
        return next(name for name in PAPERS if name == text)

    def to_url(self, paper: PaperName) -> str:
        return paper


@dataclass(frozen=True, slots=True)
class Sold:
    """One line in words. says: what it is. count: how many; empty for one."""

    title: str
    says: str
    count: str
    price: str


@dataclass(frozen=True, slots=True)
class Receipt:
    """A receipt, all of it in words. sums: what stands under the lines with its amount; the total last.

    invoice: its own number in the row of the shop's receipts; empty where nothing was paid.
    """

    number: str
    invoice: str
    placed: str
    placed_words: str
    seller: str
    seller_email: str
    buyer: str
    lines: tuple[Sold, ...]
    sums: tuple[tuple[str, str], ...]
    remark: str


def receipt(order: Order, shop: Shop, paper: PaperName) -> bytes:
    """Return the receipt as a PDF/UA-1, made if need be; the same bytes for the same order and shop."""
    content = receipt_of(order, shop)
    parts = [asdict(content), paper, renderer_key()]
    address = hashlib.sha256(json.dumps(parts).encode()).hexdigest()
    made = files.kept(FOLDER, address)
    if made is None:
        words = {"receipt": content, "language": LANGUAGE}
        made = one_sheet("receipt", (f"upright-{paper}",), words, {})
        files.keep(FOLDER, address, made)
    return made


def receipt_of(order: Order, shop: Shop) -> Receipt:
    """Return what the receipt says. What was sold stands on it, not what was later kept beside that."""
    placed = order.placed_at.astimezone(shop.zone)
    return Receipt(
        number=str(order.number),
        invoice="" if order.invoice_number is None else str(order.invoice_number),
        placed=placed.date().isoformat(),
        placed_words=formats.date_format(timezone.localtime(order.placed_at, shop.zone), "j F Y"),
        seller=_printable(shop.name),
        seller_email=_printable(shop.email),
        buyer=_printable(order.name),
        lines=tuple(sold for line in order.lines.sold() for sold in _sold(line)),
        sums=tuple((name, _printable(amount)) for name, amount in _sums(order)),
        remark=_printable(_remark(order, shop)),
    )


def _sums(order: Order) -> Iterator[tuple[str, str]]:
    if order.tax_minor:
        yield f"Without {order.tax_name}", order.net
        yield f"{order.tax_name} at {order.tax_rate}", order.tax
    yield "Total", order.total


def _remark(order: Order, shop: Shop) -> str:
    if order.paid_at is None:
        return "" if order.total_minor else "Nothing was to be paid for this order."
    day = formats.date_format(timezone.localtime(order.paid_at, shop.zone), "j F Y")
    by = "bank transfer" if order.is_by_transfer else "card"
    paid = f"Paid by {by} on {day}."
    if not order.refunded_minor:
        return paid
    return f"{paid} Of it {money(order.refunded_minor, order.currency)} was given back."


def _sold(line: OrderLine) -> Iterator[Sold]:
    """Yield a line, and the small-batch licence beside it."""
    count = "" if line.quantity == 1 else f"{line.quantity} of it"
    title, size = _printable(line.title), f"worked out for {Words(line.sized_pattern).size()}"
    price = "included" if line.is_included else _printable(line.price)
    yield Sold(title, f"Pattern as a download, {size}", count, price)
    if line.batch_licence:
        yield Sold(f"Small-batch licence for {title}", "", "", _printable(line.batch_price))


def _printable(text: str) -> str:
    """Return the text without the signs that our fonts do not have."""
    missing = missing_from(text)
    return " ".join("".join(sign for sign in text if sign not in missing).split())
