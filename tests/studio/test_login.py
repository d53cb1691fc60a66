"""The owner's login: password, then a code; everything else is closed until then."""

import time
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime
from io import StringIO
from urllib.parse import unquote

import pytest
from allauth.mfa.models import Authenticator
from allauth.mfa.recovery_codes.internal.auth import RecoveryCodes
from allauth.mfa.totp.internal.auth import TOTP, format_hotp_value, generate_totp_secret, hotp_value
from django.contrib.auth.models import User
from django.core.cache import caches
from django.core.management import CommandError, call_command
from django.db import connections
from django.test import Client
from django.urls import NoReverseMatch, reverse

from studio.models import Counted, Shop

NOW = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
pytestmark = pytest.mark.django_db
PASSWORD = "an owner in a test"
LOGIN, CODE, SET_UP = "/workroom/login/", "/workroom/login/code/", "/workroom/login/second-factor/"
ORDERS = "/workroom/orders/"


@pytest.fixture(autouse=True)
def owner_has_a_second_factor() -> None:
    """Here it is the owner's own business whether they have one."""


@pytest.fixture(autouse=True)
def at_now(time_machine) -> None:
    """Stop the clock: a code must not change between being made and being sent."""
    time_machine.move_to(NOW, tick=False)


@pytest.fixture
def owner() -> User:
    return User.objects.create_superuser("owner", password=PASSWORD)


@pytest.fixture
def secret(owner: User) -> str:
    """Give the owner a second factor; return its secret."""
    made = generate_totp_secret()
    TOTP.activate(owner, made)
    RecoveryCodes.activate(owner)
    return made


def code_of(secret: str, periods: int = 0) -> str:
    return format_hotp_value(hotp_value(secret, int(time.time()) // 30 + periods))


def log_in(client: Client, password: str = PASSWORD, **more: str):
    return client.post(LOGIN, {"login": "owner", "password": password, **more})


def is_in(client: Client) -> bool:
    return client.get(ORDERS).status_code == 200


def test_password_alone_opens_nothing_but_the_setting_up(client, owner):
    assert log_in(client).status_code == 302
    for path in (ORDERS, "/admin/", "/", "/workroom/login/yours/", "/admin/password_change/"):
        response = client.get(path)
        assert (response.status_code, response.headers["Location"]) == (303, SET_UP)
    assert client.get(SET_UP).status_code == 200


def test_first_login_sets_up_the_second_factor(client, owner):
    log_in(client)
    client.get(SET_UP)
    secret = client.session["mfa.totp.secret"]
    wrong = client.post(SET_UP, {"code": code_of(secret, periods=50)})
    assert "This is not the code." in wrong.content.decode()
    assert secret in wrong.content.decode().replace(" ", "")  # the same secret stays to be scanned
    response = client.post(SET_UP, {"code": code_of(secret)})
    assert response.url == reverse("mfa_view_recovery_codes")
    page = client.get(response.url).content.decode()
    codes = Authenticator.objects.get(type="recovery_codes").wrap().get_unused_codes()
    assert len(codes) == 10
    assert all(code in page for code in codes)
    assert is_in(client)


@pytest.mark.parametrize(("is_demo", "status"), [(True, 303), (False, 404)])
def test_later_is_for_the_demo_alone(client, owner, is_demo, status):
    Shop.objects.create(is_demo=is_demo)
    log_in(client)
    assert (b"Later" in client.get(SET_UP).content) is is_demo
    assert client.post("/workroom/login/second-factor/later/").status_code == status
    assert is_in(client) is is_demo
    Shop.objects.update(is_demo=False)  # a demo that becomes a shop asks for it at once
    assert not is_in(client)


def test_code_comes_second(client, owner, secret):
    response = log_in(client, next="/admin/")
    assert response.url == CODE
    assert not is_in(client)
    assert client.post(CODE, {"code": code_of(secret, periods=9)}).status_code == 200
    assert not is_in(client)
    assert client.post(CODE, {"code": code_of(secret)}).url == "/admin/"
    assert is_in(client)


def test_code_is_used_once(client, owner, secret):
    log_in(client)
    code = code_of(secret)
    client.post(CODE, {"code": code})
    other = Client()
    log_in(other)
    other.post(CODE, {"code": code})
    assert not is_in(other)


def test_recovery_code_takes_its_place_once(client, owner, secret):
    code = Authenticator.objects.get(type="recovery_codes").wrap().get_unused_codes()[3]
    for expected in (True, False):
        other = Client()
        log_in(other)
        other.post(CODE, {"code": f"{code[:4]} {code[4:]}"})
        assert is_in(other) is expected


def test_code_page_is_closed_without_a_password(client, owner, secret):
    assert client.get(CODE).url == LOGIN
    assert client.post(CODE, {"code": code_of(secret)}).url == LOGIN


def test_records_are_behind_the_same_login(client, owner, secret):
    """Django's own login page would take a password alone."""
    response = client.post("/admin/login/?next=/admin/", {"username": "owner", "password": PASSWORD})
    assert unquote(response.url) == f"{LOGIN}?next=/admin/"
    assert client.get("/admin/").status_code == 302


def test_guessing_is_limited_for_one_login_from_anywhere(client, owner):
    for at in range(5):
        client.post(LOGIN, {"login": "owner", "password": "guess"}, REMOTE_ADDR=f"192.0.2.{at}")
    response = client.post(LOGIN, {"login": "owner", "password": PASSWORD}, REMOTE_ADDR="192.0.2.99")
    assert "It was tried too often." in response.content.decode()
    assert not is_in(client)


@pytest.mark.django_db(transaction=True)
def test_guesses_at_once_are_limited_as_well():
    """Each in a thread with a connection of its own, as processes have one."""
    User.objects.create_superuser("owner", password=PASSWORD)

    def guess(at: int) -> bool:
        try:
            sent = {"login": "owner", "password": "guess"}
            said = Client().post(LOGIN, sent, REMOTE_ADDR=f"192.0.2.{at}").content.decode()
            return "do not belong together" in said
        finally:
            connections.close_all()

    with ThreadPoolExecutor(12) as guessing:
        assert sum(guessing.map(guess, range(12))) <= 5


def test_guessing_codes_is_limited(client, owner, secret):
    log_in(client)
    for _ in range(5):
        client.post(CODE, {"code": code_of(secret, periods=9)})
    response = client.post(CODE, {"code": code_of(secret)})
    assert "It was tried too often." in response.content.decode()
    assert not is_in(client)


def test_limits_are_kept_in_the_database(client, owner):
    """So that they hold for all processes together, and after a restart."""
    log_in(client, "guess")
    assert Counted.objects.filter(cache_key__contains="login_failed").count() == 2
    assert "DatabaseCache" in type(caches["default"]).__name__


def test_wrong_name_and_wrong_password_are_told_alike(client, owner):
    said = [
        client.post(LOGIN, {"login": name, "password": "guess"}).content.decode()
        for name in ("owner", "nobody")
    ]
    sentence = "The name and the password do not belong together."
    assert all(sentence in page for page in said)
    assert 'value="guess"' not in said[0]


def test_secrets_are_sealed(owner, secret):
    kept = {authenticator.type: authenticator.data for authenticator in Authenticator.objects.all()}
    assert secret not in str(kept["totp"])
    assert kept["recovery_codes"]["seed"].startswith("gAAAA")  # as every sealed text begins


def test_key_that_was_changed_refuses_every_code_and_says_why(client, owner, secret, settings, caplog):
    settings.SECRET_KEY = "another key that only the tests use for this"
    log_in(client)
    assert client.post(CODE, {"code": code_of(secret)}).status_code == 200
    assert not is_in(client)
    assert "forget_second_factor NAME" in caplog.text


def test_lost_phone_and_codes(client, owner, secret):
    out = StringIO()
    call_command("forget_second_factor", "owner", stdout=out)
    said = "owner has no second factor now, and is asked to set one up at the next login.\n"
    assert out.getvalue() == said
    assert not Authenticator.objects.exists()
    with pytest.raises(CommandError, match="There is no login with the name “nobody”"):
        call_command("forget_second_factor", "nobody")


def test_change_of_the_second_factor_asks_for_the_password_once_it_is_old(
    client, owner, secret, time_machine
):
    log_in(client)
    client.post(CODE, {"code": code_of(secret)})
    off = reverse("mfa_deactivate_totp")
    assert client.get(off).status_code == 200
    time_machine.shift(600)
    assert client.get(off).url.startswith(reverse("account_reauthenticate"))
    again = client.post(reverse("account_reauthenticate"), {"password": PASSWORD, "next": off})
    assert again.url == off
    assert client.post(off).status_code == 302
    assert not is_in(client)  # and is led to set up the next one


def test_log_out_is_a_post(client, owner, secret):
    log_in(client)
    client.post(CODE, {"code": code_of(secret)})
    assert client.get(reverse("account_logout")).status_code == 405
    client.post(reverse("account_logout"))
    assert not is_in(client)


def test_nobody_leads_elsewhere_by_next(client, owner, secret):
    log_in(client, next="https://elsewhere.example/")
    assert client.post(CODE, {"code": code_of(secret)}).url == "/workroom/"


@pytest.mark.parametrize("name", ["account_signup", "account_reset_password", "account_email"])
def test_nobody_signs_up(name):
    with pytest.raises(NoReverseMatch):
        reverse(name)


def test_customers_are_asked_nothing(client, owner):
    assert client.get("/").status_code == 200


def test_too_many_tries_are_answered_in_the_shops_own_page(client, owner):
    for _ in range(31):
        response = client.post(LOGIN, {"login": "", "password": ""})
    assert response.status_code == 429
    assert "That was tried too often" in response.content.decode()
