"""The machine the tests run on: a shop folder of their own, made before the settings are read.

Loaded by .pytest.ini as a plugin, because pytest-django reads the settings before any conftest.py.
"""

import atexit
import os
import shutil
import tempfile
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parent.parent
SHOP_DATA = Path(tempfile.mkdtemp(prefix="shop-tests-"))
atexit.register(shutil.rmtree, SHOP_DATA, ignore_errors=True)

# What the machine's owner has set for a shop is not for its tests.
SETTINGS = (
    "DEBUG",
    "SITE_URL",
    "TRUSTED_PROXIES",
    "WEB_WORKERS",
    "WEB_THREADS",
    "SECRET_KEY_FILE",
    "SECRET_KEY_FALLBACKS",
    "FREE_ORDERS_HOURS",
    "FREE_ORDERS_PER_EMAIL",
    "FREE_ORDERS_PER_SOURCE",
    "LINKS_AGAIN_HOURS",
    "LINKS_AGAIN_PER_EMAIL",
    "LINKS_AGAIN_PER_SOURCE",
    "EMAIL_HOST",
    "EMAIL_SECURITY",
    "EMAIL_PORT",
    "EMAIL_USER",
    "EMAIL_PASSWORD",
    "EMAIL_PASSWORD_FILE",
    "EMAIL_FROM",
    "PASS_DAYS",
    "PASS_DOWNLOADS",
    "STRIPE_SECRET_KEY",
    "STRIPE_SECRET_KEY_FILE",
    "STRIPE_WEBHOOK_SECRETS",
    "STRIPE_WEBHOOK_SECRETS_FILE",
)
for name in SETTINGS:
    os.environ.pop(name, None)
os.environ["SHOP_DATA"] = str(SHOP_DATA)
os.environ["SECRET_KEY"] = "a key that only the tests use and that protects nothing"
# Playwright's synchronous interface runs an event loop in the tests' own thread.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"


def make_shop_data() -> None:
    """Fill the folder with what setup.sh makes; the fonts it built are taken over where they are current."""
    from patterns.documents import fonts

    (SHOP_DATA / "static").mkdir()
    built = PROJECT / ".shop" / "fonts"
    if built.is_dir():
        shutil.copytree(built, SHOP_DATA / "fonts")
    fonts.build(SHOP_DATA / "fonts")


make_shop_data()


@pytest.hookimpl(trylast=True)
def pytest_configure() -> None:
    """Let static files be found where they lie, passwords be cheap, and no test be held to the clock."""
    import hypothesis
    from django.conf import settings

    hypothesis.settings.register_profile("untimed", deadline=None)
    hypothesis.settings.load_profile("untimed")
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    static = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}
    settings.STORAGES = {**settings.STORAGES, "staticfiles": static}
    settings.WHITENOISE_USE_FINDERS = settings.WHITENOISE_AUTOREFRESH = True
