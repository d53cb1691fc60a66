"""The owner's second factor: who must still set it up, and how it is kept and spoken of."""

import logging
import secrets
import time
from base64 import b32encode
from collections.abc import Callable
from typing import Any

from allauth.account import app_settings
from allauth.account.adapter import DefaultAccountAdapter
from allauth.account.authentication import get_authentication_records
from allauth.core import context
from allauth.mfa.adapter import DefaultMFAAdapter
from allauth.mfa.models import Authenticator
from allauth.mfa.utils import is_mfa_enabled
from django.conf import settings
from django.contrib.auth.models import AbstractBaseUser
from django.http import HttpRequest, HttpResponse

from studio.htmx import redirect_page
from studio.models import Shop
from studio.sealing import SealError, seal, unseal

logger = logging.getLogger(__name__)

LATER = "second_factor_later"
# What somebody who has given only the password may still reach.
OPEN = frozenset(
    {
        "account_login",
        "account_logout",
        "account_reauthenticate",
        "admin:logout",
        "mfa_activate_totp",
        "second_factor_later",
    }
)


def must_set_up(request: HttpRequest) -> bool:
    """Return whether whoever is logged in must set up a second factor before anything else.

    A demo's owner may put it off until the next login.
    """
    if settings.SESSION_COOKIE_NAME not in request.COOKIES:
        return False  # nobody is logged in, and the answer is not made to depend on cookies
    user = request.user
    if not (user.is_authenticated and user.is_staff):
        return False
    if LATER in request.session and Shop.objects.current().is_demo:
        return False
    return not is_mfa_enabled(user, [Authenticator.Type.TOTP])


class SecondFactorMiddleware:
    """Lead staff without a second factor to the page where it is set up, whatever they ask for."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: Callable[..., HttpResponse], args: Any, kwargs: Any
    ) -> HttpResponse | None:
        match = request.resolver_match
        if (match and match.view_name in OPEN) or not must_set_up(request):
            return None
        return redirect_page(request, "mfa_activate_totp")


class AccountAdapter(DefaultAccountAdapter):
    """Nobody signs up, nothing is said by messages, and a login a moment ago is believed."""

    error_messages = {
        **DefaultAccountAdapter.error_messages,
        "username_password_mismatch": "The name and the password do not belong together. Mend one of them.",
        "incorrect_password": "This is not the password. Write it once more.",
        "too_many_login_attempts": "It was tried too often. Wait five minutes, then try again.",
        "rate_limited": "It was tried too often. Wait five minutes, then try again.",
    }

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False

    def add_message(self, *args: Any, **kwargs: Any) -> None:
        """Say nothing: each page says what has happened."""

    def is_reauthentication_required(self, *, app: str, **kwargs: Any) -> bool:
        """The password again before the second factor is changed, unless it was given minutes ago."""
        request = context.request
        records = get_authentication_records(request, request.user)
        is_fresh = bool(records) and time.time() - records[-1]["at"] < app_settings.REAUTHENTICATION_TIMEOUT
        return not is_fresh


class SecondFactorAdapter(DefaultMFAAdapter):
    """Secrets of the second factor are sealed: a copy of the database alone makes no code."""

    error_messages = {
        **DefaultMFAAdapter.error_messages,
        "incorrect_code": "This is not the code. Wait for the next one, and write its six digits.",
    }

    def get_totp_issuer(self) -> str:
        """The shop's name, under which the code stands in the owner's app. A colon would part it in two."""
        return str(Shop.objects.current()).replace(":", " ")

    def get_totp_label(self, user: AbstractBaseUser) -> str:
        return user.get_username()

    def encrypt(self, text: str) -> str:
        return seal(text)

    def decrypt(self, encrypted_text: str) -> str:
        """Return the secret; where the shop's key was changed, one that no code belongs to."""
        try:
            return unseal(encrypted_text)
        except SealError:
            logger.error(
                "A second factor was set up under another SECRET_KEY, so its codes are refused. Put the "
                "earlier key into SECRET_KEY_FALLBACKS, or run: manage.py forget_second_factor NAME"
            )
            return b32encode(secrets.token_bytes(20)).decode()
