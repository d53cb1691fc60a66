"""A pattern, and its published recipes, each kept for good."""

from __future__ import annotations

from functools import lru_cache
from hashlib import sha256
from typing import Any, NoReturn

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db import models, transaction
from django.db.models import Exists, OuterRef, Prefetch, ProtectedError, Subquery
from django.urls import reverse
from django.utils import timezone

from patterns.drafting.recipe import Recipe
from patterns.drafting.recipe_text import read_recipe
from patterns.models.offers import Offer

# Recipes kept ready in each process: a shop has some dozens, and one that was read takes about 1 MB.
RECIPES_KEPT = 64
# A few sentences of a letter.
LONGEST_REASON = 400


Viewer = AbstractBaseUser | AnonymousUser


def may_see_unlisted(user: Viewer) -> bool:
    """Whether somebody is the owner, or works for them."""
    return bool(getattr(user, "is_staff", False))


class PatternQuerySet(models.QuerySet["Pattern"]):
    def published(self) -> PatternQuerySet:
        return self.filter(Exists(Revision.objects.filter(pattern=OuterRef("pk"))))

    def listed(self) -> PatternQuerySet:
        """What customers see: on the list, and with a recipe to size."""
        return self.published().filter(is_listed=True)

    def seen_by(self, user: Viewer) -> PatternQuerySet:
        """What is listed; for the owner also what is not listed yet."""
        return self.published() if may_see_unlisted(user) else self.listed()

    def with_latest_revision(self) -> PatternQuerySet:
        """Each with its `latest_revision`, in one more query for all, without the texts."""
        latest = Revision.objects.latest_of_each().without_text()
        return self.prefetch_related(Prefetch("revisions", queryset=latest, to_attr="latest_revisions"))

    def with_offers(self, currency: str) -> PatternQuerySet:
        """Each with its `offers_on_sale`, in one more query for all."""
        on_sale = Offer.objects.on_sale(currency)
        return self.prefetch_related(Prefetch("offers", queryset=on_sale, to_attr="offers_on_sale"))

    def with_photographs(self) -> PatternQuerySet:
        """Each with its photographs, in one more query for all."""
        return self.prefetch_related("photographs")


class Pattern(models.Model):
    """A pattern in the shop. Its title, summary and form are those of the recipe that was published last."""

    slug = models.SlugField(
        "address",
        max_length=60,
        unique=True,
        help_text="In the address: fold-flat-basket.",
    )
    title = models.CharField(max_length=200, blank=True)
    summary = models.TextField(max_length=2000, blank=True)
    form = models.CharField(max_length=60, blank=True, default="", editable=False)
    is_listed = models.BooleanField(
        "on the list", default=False, help_text="Customers see it once it is published."
    )
    created = models.DateTimeField(default=timezone.now, editable=False)

    objects = PatternQuerySet.as_manager()

    class Meta:
        ordering = ("title", "slug")

    def __str__(self) -> str:
        return self.title or self.slug

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Keep the pattern; a new one is free in every size until the owner says otherwise."""
        is_new = self._state.adding
        with transaction.atomic():
            super().save(*args, **kwargs)
            if is_new:
                Offer.objects.get_or_create(pattern=self, kind=Offer.Kind.FREE)

    def get_absolute_url(self) -> str:
        return reverse("patterns:pattern-detail", args=[self.slug])

    @property
    def kind(self) -> str:
        """What sort of thing it is, in one word: the last one of its form, `pouch` of `zip-top pouch`."""
        return self.form.rpartition(" ")[2]

    @property
    def latest_revision(self) -> Revision | None:
        """The revision sold now. A query each time, unless the queryset brought it."""
        if not hasattr(self, "latest_revisions"):
            self.latest_revisions = list(self.revisions.latest_of_each().without_text())
        return self.latest_revisions[0] if self.latest_revisions else None


class RevisionQuerySet(models.QuerySet["Revision"]):
    def latest_of_each(self) -> RevisionQuerySet:
        """The newest revision of each pattern."""
        newest = Revision.objects.filter(pattern=OuterRef("pattern")).order_by("-number").values("number")[:1]
        return self.filter(number=Subquery(newest))

    def seen_by(self, user: Viewer) -> RevisionQuerySet:
        """What is sold now, of the patterns that somebody may see."""
        latest = self.latest_of_each()
        return latest if may_see_unlisted(user) else latest.filter(pattern__is_listed=True)

    def without_text(self) -> RevisionQuerySet:
        """Without the recipe texts, which are read only when a recipe is not kept ready."""
        return self.defer("text")

    def update(self, **kwargs: Any) -> NoReturn:
        refuse_change(self)

    def delete(self) -> NoReturn:
        refuse_change(self)


class Revision(models.Model):
    """A published recipe: numbered, never changed, never deleted. `publishing.publish` makes one.

    reason: why it took the place of the one before, in the owner's words for customers.
    """

    pattern = models.ForeignKey(Pattern, on_delete=models.PROTECT, related_name="revisions")
    number = models.PositiveIntegerField()
    text = models.TextField("recipe text")
    reason = models.CharField("why it was revised", max_length=LONGEST_REASON, blank=True, default="")
    checksum = models.CharField(max_length=64, editable=False)
    published_at = models.DateTimeField(default=timezone.now)

    objects = RevisionQuerySet.as_manager()

    class Meta:
        ordering = ("pattern_id", "-number")
        constraints = (models.UniqueConstraint(fields=("pattern", "number"), name="revision_number_once"),)

    def __str__(self) -> str:
        return f"{self.pattern}, revision {self.number}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Keep a new revision. One that is kept already is refused: what was sold must stay as it was."""
        if not self._state.adding:
            refuse_change([self])
        self.checksum = checksum(self.text)
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> NoReturn:
        refuse_change([self])

    @property
    def recipe(self) -> Recipe:
        """The recipe, read from the text once in each process."""
        return kept_recipe(self.pk, self.checksum)


def checksum(text: str) -> str:
    """Return what tells one recipe text from every other."""
    return sha256(text.encode()).hexdigest()


def refuse_change(revisions: Any) -> NoReturn:
    """Raises ProtectedError, which Django's admin shows as a sentence."""
    raise ProtectedError(
        "A published revision is kept as it is. Publish another one instead.",
        set(revisions),
    )


@lru_cache(maxsize=RECIPES_KEPT)
def kept_recipe(pk: int, checksum: str) -> Recipe:
    """Return the recipe of a revision. A number may come again in a new database, a checksum does not."""
    return read_recipe(Revision.objects.values_list("text", flat=True).get(pk=pk))
