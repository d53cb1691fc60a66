"""New patterns and corrected ones, the newest first, for feed readers."""

from datetime import datetime
from typing import Final

from django.conf import settings
from django.contrib.syndication.views import Feed
from django.http import HttpRequest
from django.urls import reverse
from django.utils.feedgenerator import Atom1Feed, Enclosure
from django.utils.html import escape

from patterns.models import Revision
from patterns.photographs import size_of_largest
from studio.models import Shop

MOST_SHOWN: Final = 30


class RevisionFeed(Feed):
    """A Revision is an entry: the first of a pattern is a new pattern, a later one corrects it.

    All addresses begin with SITE_URL, whichever host was asked.
    """

    feed_type = Atom1Feed
    language = "en"

    def get_object(self, request: HttpRequest) -> Shop:
        return request.shop  # type: ignore[attr-defined, no-any-return]

    def title(self, shop: Shop) -> str:
        return f"{shop.name}: new patterns and corrections"

    def author_name(self, shop: Shop) -> str:
        return shop.name

    def link(self, shop: Shop) -> str:
        return settings.SITE_URL + reverse("patterns:pattern-list")

    def feed_url(self, shop: Shop) -> str:
        return settings.SITE_URL + reverse("patterns:feed")

    def items(self, shop: Shop) -> list[Revision]:
        revisions = Revision.objects.filter(pattern__is_listed=True).without_text().select_related("pattern")
        revisions = revisions.prefetch_related("pattern__photographs")
        return list(revisions.order_by("-published_at", "-pk")[:MOST_SHOWN])

    def item_title(self, item: Revision) -> str:
        what = "new pattern" if item.number == 1 else f"corrected, revision {item.number}"
        return f"{item.pattern.title}: {what}"

    def item_description(self, item: Revision) -> str:
        if item.number == 1:
            return escape(item.pattern.summary)  # a summary in the feed is HTML
        why = f" {escape(item.reason)}" if item.reason else ""
        return f"The recipe was corrected.{why} What is ordered from now on is made by the corrected one."

    def item_link(self, item: Revision) -> str:
        return settings.SITE_URL + item.pattern.get_absolute_url()

    def item_guid(self, item: Revision) -> str:
        return f"{self.item_link(item)}#revision-{item.number}"

    def item_enclosures(self, item: Revision) -> list[Enclosure]:
        """The first photograph of the pattern, if it has one and its file is there."""
        return [
            Enclosure(settings.SITE_URL + first.largest, str(size), "image/jpeg")
            for first in item.pattern.photographs.all()[:1]
            if (size := size_of_largest(first)) is not None
        ]

    def item_pubdate(self, item: Revision) -> datetime:
        return item.published_at

    def item_updateddate(self, item: Revision) -> datetime:
        return item.published_at
