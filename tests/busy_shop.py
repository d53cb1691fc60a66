"""An invented shop in which everything has happened once, and much waits for its owner."""

from datetime import date, datetime

from allauth.mfa.recovery_codes.internal.auth import RecoveryCodes
from allauth.mfa.totp.internal.auth import TOTP, generate_totp_secret
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.utils import timezone

from orders.correcting import publish_revision, sweep_corrections
from orders.keys import new_key
from orders.models import IssuedDocument, Letter, LocalCharge, Order, TaxRate
from orders.models.documents import MOST_ATTEMPTS
from orders.paying import begin_card, mark_paid, take
from orders.placing import Placed
from orders.pricing import Item, priced_basket
from orders.providers.interface import Kind as MessageKind
from orders.providers.interface import Message
from orders.providers.local import dispute_message_of, message_of
from orders.refunding import ask_refund, mark_sent
from orders.selling import Buyer, place_basket
from patterns.models import Draft, Offer, Pattern
from patterns.starters import text_of
from studio.demo import make_shop, publish_starters
from studio.models import Shop
from tests.pictures import jpeg
from tests.walk import page_of

REASON = "A step could be misread."
# Of the basket, before and after its correction.
WIDEST, NARROWER = (
    {"in": "20", "cm": "50"},
    (
        ('most = "20", default = "9"', 'most = "19", default = "9"'),
        ('most = "50", default = "23"', 'most = "48", default = "23"'),
    ),
)
# What only a script, a provider or a form that is filled in well leads to.
ASKED_FOR = (
    "/patterns/zip-pouch/making/?units=cm",
    "/patterns/zip-pouch/pieces/?units=cm",
    "/payments/back/1/",
    "/orders/links/asked/",
    # Each way to choose a size: as it is opened, with what it finds, and with a mistake.
    "/patterns/zip-pouch/?by=chart",
    "/patterns/zip-pouch/?by=contents",
    "/patterns/zip-pouch/?by=contents&thing-width=5&thing-height=4&thing-depth=2",
    "/patterns/zip-pouch/?by=contents&thing-width=wide&thing-height=4",
    "/patterns/zip-pouch/?by=cloth",
    "/patterns/zip-pouch/?by=cloth&cloth-width=20&cloth-length=22&cloth-count=1",
    "/patterns/zip-pouch/?by=cloth&cloth-width=wide",
    # Sizes that are no sizes, and one that is refused.
    "/patterns/zip-pouch/?width=wide&height=999&shrinks=ninety",
    "/patterns/zip-pouch/?zip-length=1&width=20&strange=1",
    "/patterns/fold-flat-basket/?width=3&height=2&depth=10",
)
# What only the owner meets, at the door and behind it.
LOGIN = "/workroom/login/"
LOGIN_PAGES = tuple(
    f"{LOGIN}{page}"
    for page in (
        *("yours/", "second-factor/off/", "recovery-codes/", "recovery-codes/new/"),
        *("password/", "code/again/"),
    )
)
PASSWORD = "an owner in a test"


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
        "unpaid": bought("round-bucket", query, kinds.ONE_SIZE, "local"),
        "too wide": bought("fold-flat-basket", f"{query}&width={WIDEST[units]}", kinds.FREE, ""),
        "card": bought("boxed-tote", query, kinds.ONE_SIZE, "local", has_batch=True),
        "chart": bought("boxed-tote", query, kinds.CHART, "transfer"),
        "year": bought("boxed-tote", query, kinds.YEAR, "transfer"),
    }
    for name in ("chart", "year"):
        mark_paid(made[name].order.payments.get(), f"Bank {name}", "owner", timezone.now())
    _let_wait(made)
    return made


def _let_wait(placed: dict[str, Placed]) -> None:
    """Leave what waits for the owner, one of each."""
    now, chart = timezone.now(), placed["chart"].order.payments.get()
    for amount in (100, 200):
        refund = ask_refund(chart, amount, reason="A page was missing", key=new_key(), owner="owner", now=now)
    mark_sent(refund, "Bank 200", "owner", now)
    take("local", Message("stray", MessageKind.PAID, "nobody", amount_minor=1, currency="GBP"), now)
    _dispute(placed["card"].order, now)
    first = Letter.objects.filter(pk=Letter.objects.earliest("pk").pk)
    first.update(due_at=None, last_error="Nobody at home", tries=9)
    IssuedDocument.objects.filter(line__order=placed["free"].order).update(
        attempts=MOST_ATTEMPTS, try_after=now, failure="The paper ran out"
    )
    basket, pouch = (Pattern.objects.get(slug=slug) for slug in ("fold-flat-basket", "zip-pouch"))
    narrower = reworded("fold-flat-basket")
    for before, after in NARROWER:
        narrower = narrower.replace(before, after, 1)
    publish_revision(basket, narrower, REASON, tells=True, owner="owner", now=now)
    while sweep_corrections(now):
        pass
    tote = Pattern.objects.get(slug="boxed-tote")
    publish_revision(tote, reworded("boxed-tote"), REASON, tells=False, owner="owner", now=now)
    Draft.objects.create(pattern=pouch, text=reworded("zip-pouch"), reason=REASON, kept_at=now)


def _dispute(order: Order, now: datetime) -> None:
    """Let the customer pay by card, and the payer's bank take it back for a time."""
    begin_card(order, "local", now)
    charge = LocalCharge.objects.get(order_number=order.number)
    charge.state, charge.dispute, charge.disputed_at = "paid", "open", now
    charge.save()
    for message in (message_of(charge), dispute_message_of(charge)):
        take("local", message, now)


def reworded(slug: str) -> str:
    """Return a starter's text with one step said otherwise."""
    return text_of(slug).replace("press them flat", "press them quite flat", 1)


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
    paid_at = busy["card"].order.payments.get().address
    return client, ["/", "/basket/", "/basket/check/", *ASKED_FOR, *links, f"{links[1]}payment/", paid_at]


def owner_at_the_door() -> tuple[Client, str]:
    """Return the owner who has given the password, and a code that lets her in."""
    owner, user = Client(), User.objects.create_superuser("owner", password=PASSWORD)
    TOTP.activate(user, generate_totp_secret())
    codes = RecoveryCodes.activate(user).get_unused_codes()
    assert owner.post(LOGIN, {"login": "owner", "password": PASSWORD})["Location"] == f"{LOGIN}code/"
    return owner, codes[0]


def owner_of_it() -> Client:
    """Return the owner, who has put up a photograph of one pattern."""
    owner, code = owner_at_the_door()
    assert owner.post(f"{LOGIN}code/", {"code": code}).status_code == 302
    sent = {"picture": SimpleUploadedFile("tote.jpg", jpeg(800, 600)), "alt": "A tote of striped canvas"}
    assert owner.post("/workroom/patterns/boxed-tote/photographs/", sent).status_code == 303
    return owner


def _put_into_basket(client: Client, slug: str) -> None:
    address = f"/patterns/{slug}/order/"
    page = page_of(address, client.get(address).content.decode())
    form = next(form for form in page.forms if form.address.endswith("/basket/"))
    assert client.post(form.address, dict(form.fields)).status_code == 303
