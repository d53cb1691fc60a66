"""The records of what was sold, to be read and not to be changed: a sale is corrected by another record.

Only the rates of tax are the owner's to write.
"""

from decimal import Decimal
from typing import Any

from django import forms
from django.contrib import admin
from django.http import HttpRequest

from orders.models import (
    CorrectedLine,
    Correction,
    Dispute,
    DownloadPass,
    IssuedDocument,
    Letter,
    Order,
    OrderLine,
    Payment,
    PaymentEvent,
    Refund,
    SizeSold,
    TaxRate,
)
from orders.models.tax import percent


class ReadOnly:
    """Neither added, changed nor deleted here, by anyone."""

    def has_add_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


class OrderLineInline(ReadOnly, admin.TabularInline):
    model = OrderLine
    fields = ("position", "title", "revision", "quantity", "price_minor", "currency")
    show_change_link = True


class IssuedDocumentInline(ReadOnly, admin.TabularInline):
    model = IssuedDocument
    fields = ("kind", "paper", "issued_at", "failure", "pages", "size_bytes", "downloads", "downloaded_at")
    show_change_link = True


class SizeSoldInline(ReadOnly, admin.TabularInline):
    model = SizeSold
    fields = ("measure", "text", "units")


@admin.register(Order)
class OrderAdmin(ReadOnly, admin.ModelAdmin):
    """Its list links to the owner's own pages (templates/admin/orders/order/change_list.html)."""

    list_display = ("number", "placed_at", "name", "email", "total_minor", "currency")
    search_fields = ("=number", "name", "email")
    date_hierarchy = "placed_at"
    ordering = ("-number",)
    fields = (
        ("number", "placed_at", "name", "email", "country"),
        ("total_minor", "currency", "tax_name", "tax_milli_percent", "tax_minor"),
        ("way", "paid_minor", "refunded_minor", "paid_at", "invoice_number"),
        ("consent_text", "consented_at"),
    )
    inlines = (OrderLineInline,)


@admin.register(OrderLine)
class OrderLineAdmin(ReadOnly, admin.ModelAdmin):
    list_display = ("order", "position", "title", "revision", "quantity", "price_minor", "currency")
    list_select_related = ("order", "revision", "revision__pattern")
    search_fields = ("title",)
    fields = (
        ("order", "position", "title", "revision", "quantity"),
        ("offer_kind", "price_minor", "currency", "tax_minor", "is_included"),
        ("licence", "batch_minor", "batch_licence", "any_size_until"),
        "sized",
    )
    inlines = (SizeSoldInline, IssuedDocumentInline)


@admin.register(IssuedDocument)
class IssuedDocumentAdmin(ReadOnly, admin.ModelAdmin):
    list_display = ("line", "kind", "paper", "issued_at", "pages", "downloads")
    list_filter = ("kind", "paper")
    list_select_related = ("line",)


@admin.register(Letter)
class LetterAdmin(ReadOnly, admin.ModelAdmin):
    """What was written to whom. The links are not in it: nobody but the one who has the letter has them."""

    list_display = ("to", "kind", "subject", "created_at", "sent_at", "tries")
    list_filter = ("kind",)
    search_fields = ("to", "subject")
    date_hierarchy = "created_at"
    ordering = ("-pk",)
    fields = ("to", "kind", "subject", "text", "created_at", "due_at", "tries", "sent_at", "last_error")


@admin.register(DownloadPass)
class DownloadPassAdmin(ReadOnly, admin.ModelAdmin):
    list_display = ("order", "number", "made_at", "ends_at", "used", "most", "renewed_at")
    search_fields = ("=order__number",)
    fields = list_display


class RefundInline(ReadOnly, admin.TabularInline):
    model = Refund
    fields = ("amount_minor", "currency", "state", "reason", "asked_at", "asked_by", "done_at", "reference")


class CorrectedLineInline(ReadOnly, admin.TabularInline):
    model = CorrectedLine
    fields = ("line", "outcome", "why", "looked_at", "seen_at", "seen_by")


@admin.register(Correction)
class CorrectionAdmin(ReadOnly, admin.ModelAdmin):
    list_display = ("revision", "begun_at", "begun_by")
    list_select_related = ("revision", "revision__pattern")
    fields = list_display
    inlines = (CorrectedLineInline,)


class DisputeInline(ReadOnly, admin.TabularInline):
    model = Dispute
    fields = ("amount_minor", "currency", "state", "opened_at", "closed_at", "reference")


@admin.register(Payment)
class PaymentAdmin(ReadOnly, admin.ModelAdmin):
    list_display = ("order", "provider", "amount_minor", "currency", "state", "begun_at", "paid_at")
    list_filter = ("provider", "state")
    list_select_related = ("order",)
    search_fields = ("=order__number", "=reference", "=charge")
    exclude = ("key", "address")
    inlines = (RefundInline, DisputeInline)


@admin.register(PaymentEvent)
class PaymentEventAdmin(ReadOnly, admin.ModelAdmin):
    list_display = ("event_id", "provider", "kind", "received_at", "outcome", "why")
    list_filter = ("provider", "kind", "outcome")
    search_fields = ("=event_id", "=reference", "=order_number")
    exclude = ("payment_key", "refund_key")


class TaxRateForm(forms.ModelForm):
    """A rate, written in percent."""

    rate = forms.DecimalField(
        label="Rate in percent",
        min_value=0,
        max_value=100,
        max_digits=6,
        decimal_places=3,
        help_text="20 or 5.5. The shop brings no rates: ask a licensed adviser which you have to charge.",
    )

    class Meta:
        model = TaxRate
        fields = ("country", "rate", "valid_from")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.pk:
            self.fields["rate"].initial = Decimal(self.instance.milli_percent) / 1000

    def save(self, commit: bool = True) -> TaxRate:
        self.instance.milli_percent = int(self.cleaned_data["rate"] * 1000)
        rate: TaxRate = super().save(commit)
        return rate


@admin.register(TaxRate)
class TaxRateAdmin(admin.ModelAdmin):
    """What was sold keeps the rate it was sold with: a new rate is a new row with its own first day."""

    form = TaxRateForm
    list_display = ("country", "rate", "valid_from")
    list_filter = ("country",)

    @admin.display(ordering="milli_percent")
    def rate(self, rate: TaxRate) -> str:
        return percent(rate.milli_percent)
