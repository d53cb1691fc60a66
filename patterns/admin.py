from django import forms
from django.contrib import admin
from django.db.models import Max, QuerySet
from django.http import HttpRequest
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from patterns.models import Pattern, Revision
from patterns.publishing import PublishingError, publish, sellable


@admin.register(Pattern)
class PatternAdmin(admin.ModelAdmin):
    """Title and summary are the recipe's own: they change with the next revision that is published."""

    list_display = (
        "__str__",
        "slug",
        "is_listed",
        "newest",
        "publish_link",
        "range_link",
        "prices_link",
        "photographs_link",
    )
    list_filter = ("is_listed",)
    search_fields = ("title", "slug")
    fields = (
        "slug",
        "is_listed",
        "title",
        "summary",
        "created",
        "newest",
        "publish_link",
        "range_link",
        "prices_link",
        "photographs_link",
    )
    readonly_fields = (
        "title",
        "summary",
        "created",
        "newest",
        "publish_link",
        "range_link",
        "prices_link",
        "photographs_link",
    )

    def get_queryset(self, request: HttpRequest) -> QuerySet[Pattern]:
        patterns: QuerySet[Pattern] = super().get_queryset(request)
        return patterns.annotate(newest_number=Max("revisions__number"))

    def get_readonly_fields(self, request: HttpRequest, obj: Pattern | None = None) -> tuple[str, ...]:
        """The address of a pattern that was published stays: people have saved it."""
        return (*self.readonly_fields, "slug") if obj and obj.latest_revision else self.readonly_fields

    def view_on_site(self, obj: Pattern) -> str | None:
        return obj.get_absolute_url() if obj.latest_revision else None

    @admin.display(description="newest revision", ordering="newest_number", empty_value="none yet")
    def newest(self, pattern: Pattern) -> int | None:
        return getattr(pattern, "newest_number", None)

    @admin.display(description="next revision")
    def publish_link(self, pattern: Pattern) -> SafeString | str:
        if pattern._state.adding:
            return "Save the pattern first."
        address = reverse("orders:pattern-revise", args=[pattern.slug])
        return format_html('<a href="{}">Publish a revision</a>', address)

    @admin.display(description="prices")
    def prices_link(self, pattern: Pattern) -> SafeString | str:
        if pattern._state.adding:
            return "Save the pattern first: it is free in every size until you say otherwise."
        address = reverse("patterns:pattern-offers", args=[pattern.slug])
        return format_html('<a href="{}">How it is sold</a>', address)

    @admin.display(description="photographs")
    def photographs_link(self, pattern: Pattern) -> SafeString | str:
        if pattern._state.adding:
            return "Save the pattern first."
        address = reverse("patterns:pattern-photographs", args=[pattern.slug])
        return format_html('<a href="{}">Its photographs</a>', address)

    @admin.display(description="range of sizes", empty_value="none yet")
    def range_link(self, pattern: Pattern) -> SafeString | None:
        if getattr(pattern, "newest_number", None) is None:
            return None
        address = reverse("patterns:range-chart", args=[pattern.slug])
        return format_html('<a href="{}">Range chart</a>', address)


class RevisionForm(forms.ModelForm):
    """A recipe text to be published: each of its mistakes is named, with its key and its line."""

    text = forms.CharField(
        label="recipe text",
        strip=False,
        widget=forms.Textarea(attrs={"rows": 40, "cols": 110, "spellcheck": "false"}),
        help_text="The whole text. It is read, and every truing proved, before it is published.",
    )

    class Meta:
        model = Revision
        fields = ("pattern", "text")

    def clean_pattern(self) -> Pattern:
        pattern: Pattern = self.cleaned_data["pattern"]
        if pattern.latest_revision:
            address = reverse("orders:pattern-revise", args=[pattern.slug])
            link = format_html('<a href="{}">page of its own</a>', address)
            raise forms.ValidationError(
                format_html(
                    "{} has been published. Its next revision has a {}, which says whom it concerns.",
                    pattern,
                    link,
                )
            )
        return pattern

    def clean_text(self) -> str:
        text: str = self.cleaned_data["text"]
        try:
            sellable(text)
        except PublishingError as error:
            raise forms.ValidationError([str(mistake) for mistake in error.mistakes]) from None
        return text


@admin.register(Revision)
class RevisionAdmin(admin.ModelAdmin):
    """Revisions are published and read here, never changed or deleted."""

    form = RevisionForm
    list_display = ("__str__", "number", "published_at")
    list_filter = ("pattern",)
    list_select_related = ("pattern",)
    date_hierarchy = "published_at"

    def get_queryset(self, request: HttpRequest) -> QuerySet[Revision]:
        return Revision.objects.without_text()

    def get_fields(self, request: HttpRequest, obj: Revision | None = None) -> tuple[str, ...]:
        return (
            ("pattern", "number", "reason", "published_at", "checksum", "text")
            if obj
            else ("pattern", "text")
        )

    def save_model(self, request: HttpRequest, obj: Revision, form: forms.ModelForm, change: bool) -> None:
        """Publish; the admin goes on with the revision that came of it."""
        published = publish(obj.pattern, obj.text)
        obj.pk, obj.number, obj._state.adding = published.pk, published.number, False

    def has_change_permission(self, request: HttpRequest, obj: Revision | None = None) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Revision | None = None) -> bool:
        return False
