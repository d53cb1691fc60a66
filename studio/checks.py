"""System checks: settings that are legal and odd, each with an id and what to do about it."""

import stat
from collections.abc import Sequence
from typing import Any

from django.apps import AppConfig
from django.conf import settings
from django.contrib.auth import get_user_model
from django.core.checks import CheckMessage, Error, Warning
from django.db import DatabaseError


def site_address(app_configs: Sequence[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    """Check that the address people type and the way it is served belong together."""
    is_loopback = _is_loopback()
    found: list[CheckMessage] = []
    if not settings.IS_HTTPS and not is_loopback:
        found.append(
            Warning(
                f"SITE_URL is {settings.SITE_URL}: names, addresses and downloads travel unencrypted.",
                hint="Put a proxy with a certificate in front and write https:// in SITE_URL.",
                id="studio.W001",
            )
        )
    if settings.IS_HTTPS and not settings.TRUSTED_PROXIES:
        found.append(
            Warning(
                f"SITE_URL is {settings.SITE_URL}, and TRUSTED_PROXIES names no proxy: the shop takes every "
                "request for plain http and redirects it to https without end.",
                hint="Write the proxy's own address in TRUSTED_PROXIES, for example 127.0.0.1.",
                id="studio.W002",
            )
        )
    if settings.DEBUG and not is_loopback:
        found.append(
            Warning(
                "DEBUG is True on an address that is not this machine's own: errors show the shop's insides.",
                hint="Leave DEBUG unset.",
                id="studio.W003",
            )
        )
    return found


def card_payments(app_configs: Sequence[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    """Check that a shop that takes cards can be told of the payments."""
    if settings.STRIPE_SECRET_KEY and not settings.STRIPE_WEBHOOK_SECRETS:
        sentence = "STRIPE_SECRET_KEY is set and STRIPE_WEBHOOK_SECRETS is not: payments are only found late."
        hint = (
            f"Have the provider send messages to {settings.SITE_URL}/payments/stripe/messages/, and write "
            "the secret that it shows for them into STRIPE_WEBHOOK_SECRETS."
        )
        return [Warning(sentence, hint=hint, id="studio.W010")]
    return []


def shop_data(app_configs: Sequence[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    """Check that the shop's own folder is there and its secret key is the owner's alone."""
    if not settings.SHOP_DATA.is_dir():
        sentence = f"The folder of the shop's data, {settings.SHOP_DATA}, does not exist."
        return [Error(sentence, hint="Run “sh studio/setup.sh”, or mend SHOP_DATA.", id="studio.E001")]
    key = settings.SHOP_DATA / "secret-key"
    if key.is_file() and key.stat().st_mode & (stat.S_IRWXG | stat.S_IRWXO):
        sentence = f"Others on this machine may read {key}."
        return [Warning(sentence, hint=f"Run: chmod 600 {key}", id="studio.W004")]
    return []


def letters(app_configs: Sequence[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    """Check that a shop on the internet has a mail server for its letters."""
    if settings.EMAIL_HOST or _is_loopback():
        return []
    sentence = f"There is no mail server: letters to customers stay as files in {settings.EMAIL_FILE_PATH}."
    return [Warning(sentence, hint="Set EMAIL_HOST, and what belongs to it.", id="studio.W005")]


def second_factor(app_configs: Sequence[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    """Check that whoever can log in has a second factor. Where there are no tables yet, nobody can."""
    from allauth.mfa.models import Authenticator

    staff = get_user_model().objects.filter(is_staff=True, is_active=True)
    secured = Authenticator.objects.filter(type=Authenticator.Type.TOTP).values("user")
    try:
        names = list(staff.exclude(pk__in=secured).values_list("username", flat=True))
    except DatabaseError:
        return []
    if not names:
        return []
    sentence = f"A password alone opens the workroom for: {', '.join(names)}."
    hint = "Log in: the page that comes first sets up the second factor."
    return [Warning(sentence, hint=hint, id="studio.W006")]


def _is_loopback() -> bool:
    return settings.SITE_HOST in ("127.0.0.1", "localhost", "::1")
