"""The records of what was sold, to be read and not to be changed: a sale is corrected by another record."""

from typing import Any

from django.contrib import admin
from django.http import HttpRequest

from orders.models import DownloadPass, IssuedDocument, Letter, Order, OrderLine, SizeSold


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
    fields = ("number", "placed_at", "name", "email", "total_minor", "currency")
    inlines = (OrderLineInline,)


@admin.register(OrderLine)
class OrderLineAdmin(ReadOnly, admin.ModelAdmin):
    list_display = ("order", "position", "title", "revision", "quantity", "price_minor", "currency")
    list_select_related = ("order", "revision", "revision__pattern")
    search_fields = ("title",)
    fields = ("order", "position", "title", "revision", "quantity", "price_minor", "currency", "sized")
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
