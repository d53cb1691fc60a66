import pytest
from allauth.mfa.models import Authenticator
from django.contrib.auth.models import User

from studio import checks


def ids(found):
    return [message.id for message in found]


def at(settings, url: str, host: str) -> None:
    settings.SITE_URL, settings.SITE_HOST, settings.IS_HTTPS = url, host, url.startswith("https")


def test_this_machine_over_http_is_in_order(settings):
    at(settings, "http://127.0.0.1:8000", "127.0.0.1")
    assert checks.site_address(None) == []


def test_https_behind_a_named_proxy_is_in_order(settings):
    at(settings, "https://shop.example", "shop.example")
    settings.TRUSTED_PROXIES = ["127.0.0.1"]
    assert checks.site_address(None) == []


def test_http_on_the_internet_is_odd(settings):
    at(settings, "http://shop.example", "shop.example")
    assert ids(checks.site_address(None)) == ["studio.W001"]


def test_https_without_a_proxy_is_odd(settings):
    at(settings, "https://shop.example", "shop.example")
    assert ids(checks.site_address(None)) == ["studio.W002"]


def test_debug_on_the_internet_is_odd(settings):
    at(settings, "https://shop.example", "shop.example")
    settings.TRUSTED_PROXIES, settings.DEBUG = ["127.0.0.1"], True
    assert ids(checks.site_address(None)) == ["studio.W003"]


def test_missing_folder_is_an_error(settings, tmp_path):
    settings.SHOP_DATA = tmp_path / "none"
    assert ids(checks.shop_data(None)) == ["studio.E001"]


def test_key_that_others_may_read_is_odd(settings, tmp_path):
    settings.SHOP_DATA = tmp_path
    key = tmp_path / "secret-key"
    key.write_text("secret")
    key.chmod(0o640)
    assert ids(checks.shop_data(None)) == ["studio.W004"]
    key.chmod(0o600)
    assert checks.shop_data(None) == []


def test_every_oddity_says_what_to_do(settings):
    at(settings, "http://shop.example", "shop.example")
    settings.DEBUG = True
    assert all(message.hint for message in checks.site_address(None))


def test_shop_on_the_internet_without_a_mail_server_is_odd(settings):
    assert checks.letters(None) == []
    at(settings, "https://shop.example", "shop.example")
    assert ids(checks.letters(None)) == ["studio.W005"]
    settings.EMAIL_HOST = "mail.example"
    assert checks.letters(None) == []


@pytest.mark.django_db
def test_login_without_a_second_factor_is_odd():
    assert checks.second_factor(None) == []
    owner = User.objects.create_superuser("owner")
    User.objects.create_superuser("gone", is_active=False)
    found = checks.second_factor(None)
    assert ids(found) == ["studio.W006"]
    assert found[0].msg == "A password alone opens the workroom for: owner."
    Authenticator.objects.create(user=owner, type=Authenticator.Type.TOTP, data={})
    assert checks.second_factor(None) == []


def test_cards_without_messages_are_odd(settings):
    assert checks.card_payments(None) == []
    settings.STRIPE_SECRET_KEY = "sk_test_1"
    assert ids(checks.card_payments(None)) == ["studio.W010"]
    settings.STRIPE_WEBHOOK_SECRETS = ["whsec_1"]
    assert checks.card_payments(None) == []
