"""The pages that a search engine should know: the list, and each pattern's own.

Addresses are the shop's own, whichever host was asked.
"""

from datetime import datetime
from typing import Any
from urllib.parse import urlsplit

from django.conf import settings
from django.contrib.sitemaps import Sitemap
from django.urls import reverse

from patterns.models import Pattern


class _OfTheShop:
    """Addresses begin with SITE_URL."""

    def get_domain(self, site: Any = None) -> str:
        return urlsplit(settings.SITE_URL).netloc

    def get_protocol(self, protocol: str | None = None) -> str:
        return urlsplit(settings.SITE_URL).scheme


class ListSitemap(_OfTheShop, Sitemap):
    def items(self) -> list[str]:
        return ["patterns:pattern-list"]

    def location(self, item: str) -> str:
        return reverse(item)


class PatternSitemap(_OfTheShop, Sitemap):
    """Each pattern on the list, with the day of its newest revision."""

    def items(self) -> list[Pattern]:
        return list(Pattern.objects.listed().with_latest_revision())

    def lastmod(self, item: Pattern) -> datetime | None:
        return item.latest_revision.published_at if item.latest_revision else None


SITEMAPS = {"list": ListSitemap, "patterns": PatternSitemap}
