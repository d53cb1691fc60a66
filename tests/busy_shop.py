"""An invented shop in which everything has happened once, and much waits for its owner."""

from datetime import date

from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.utils import timezone

from orders.keys import new_key
from orders.models import IssuedDocument, Letter, TaxRate
from orders.models.documents import MOST_ATTEMPTS
from orders.paying import mark_paid, take
from orders.placing import Placed
from orders.pricing import Item, priced_basket
from orders.providers.interface import Kind as MessageKind
from orders.providers.interface import Message
from orders.refunding import ask_refund
from orders.selling import Buyer, place_basket
from patterns.models import Offer
from studio.demo import make_shop, publish_starters
from studio.models import Shop
from tests.pictures import jpeg
from tests.walk import page_of

# What only a script, a provider or a form that is filled in well leads to.
ASKED_FOR = (
    "/patterns/zip-pouch/making/?units=cm",
    "/patterns/zip-pouch/pieces/?units=cm",
    "/payments/back/1/",
    "/orders/links/asked/",
)


def bought(slug: str, query: str, kind: str, way: str, *, has_batch: bool = False) -> Placed:
    """Place the order of one size."""
    items, now = (Item("one", slug, query, kind, has_batch),), timezone.now()
    shown = priced_basket(items, Shop.objects.current(), "GB", now.date()).shown
    buyer = Buyer("Isolde Marchbank", "isolde@marchbank.example", "GB", way, has_agreed=True)
    return place_basket(items, buyer, shown=shown, key=new_key(), source="walk", now=now)


def busy_shop(units: str) -> dict[str, Placed]:
    """Fill the database; return one order of each sort."""
    make_shop()
    Shop.objects.update(units=units)
    publish_starters()
    kinds, query = Offer.Kind, f"units={units}"
    TaxRate.objects.create(country="GB", valid_from=date(2020, 1, 1), milli_percent=20_000)
    made = {
        "free": bought("fold-flat-basket", query, kinds.FREE, ""),
        "transfer": bought("zip-pouch", query, kinds.ONE_FREE, "transfer", has_batch=True),
        "card": bought("boxed-tote", query, kinds.ONE_SIZE, "local", has_batch=True),
        "chart": bought("boxed-tote", query, kinds.CHART, "transfer"),
        "year": bought("boxed-tote", query, kinds.YEAR, "transfer"),
    }
    for name in ("chart", "year"):
        mark_paid(made[name].order.payments.get(), f"Bank {name}", "owner", timezone.now())
    _let_wait(made)
    return made


def _let_wait(placed: dict[str, Placed]) -> None:
    """Leave what waits for the owner, one of each: a refund, a message, a letter, a file."""
    now, paid = timezone.now(), placed["chart"].order.payments.get()
    ask_refund(paid, 100, reason="A page was missing", key=new_key(), owner="owner", now=now)
    stray = Message("stray", MessageKind.PAID, "nobody", amount_minor=1, currency="GBP")
    take("local", stray, now)
    Letter.objects.filter(pk=Letter.objects.earliest("pk").pk).update(
        due_at=None, last_error="Nobody at home", tries=9
    )
    IssuedDocument.objects.filter(line__order=placed["free"].order).update(
        attempts=MOST_ATTEMPTS, try_after=now, failure="The paper ran out"
    )


def customer_of(busy: dict[str, Placed]) -> tuple[Client, list[str]]:
    """Return a customer with a full basket and cloth of their own, and the pages to begin with."""
    client = Client()
    for slug in ("boxed-tote", "zip-pouch"):
        _put_into_basket(client, slug)
    who = {
        "name": "Isolde Marchbank",
        "email": "isolde@marchbank.example",
        "country": "GB",
        "way": "transfer",
    }
    assert client.post("/basket/", who).status_code == 303
    cloth = SimpleUploadedFile("cloth.jpg", jpeg(600, 600))
    own = {"exterior_picture": cloth, "exterior_strip": "10", "exterior_part": "100", "size": ""}
    assert client.post("/patterns/zip-pouch/own-cloth/", own).status_code == 303
    links = [f"/orders/{each.token}/" for each in busy.values()]
    return client, ["/", "/basket/", "/basket/check/", *ASKED_FOR, *links, f"{links[2]}payment/"]


def owner_of_it() -> Client:
    """Return the owner, who has put up a photograph of one pattern."""
    owner = Client()
    owner.force_login(User.objects.create_superuser("owner"))
    sent = {"picture": SimpleUploadedFile("tote.jpg", jpeg(800, 600)), "alt": "A tote of striped canvas"}
    assert owner.post("/workroom/patterns/boxed-tote/photographs/", sent).status_code == 303
    return owner


def _put_into_basket(client: Client, slug: str) -> None:
    address = f"/patterns/{slug}/order/"
    page = page_of(address, client.get(address).content.decode())
    form = next(form for form in page.forms if form.address.endswith("/basket/"))
    assert client.post(form.address, dict(form.fields)).status_code == 303
