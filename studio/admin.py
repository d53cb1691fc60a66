from django.contrib import admin
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect

from studio.models import SHOP_PK, Shop


@admin.register(Shop)
class ShopAdmin(admin.ModelAdmin):
    """One row: the list goes straight to it, and it is neither added to nor deleted."""

    fieldsets = (
        (None, {"fields": ("name", "email")}),
        ("How it sells", {"fields": ("currency", "units", "time_zone")}),
        ("Tax", {"fields": ("charges_tax", "tax_name", "tax_number")}),
        ("How customers pay", {"fields": ("transfer_details",)}),
        ("Shown on every page", {"fields": ("terms", "cautions")}),
    )

    def has_add_permission(self, request: HttpRequest) -> bool:
        return not Shop.objects.exists()

    def has_delete_permission(self, request: HttpRequest, obj: Shop | None = None) -> bool:
        return False

    def changelist_view(
        self, request: HttpRequest, extra_context: dict[str, str] | None = None
    ) -> HttpResponse:
        if Shop.objects.exists():
            return redirect("admin:studio_shop_change", SHOP_PK)
        return redirect("admin:studio_shop_add")

    def save_model(self, request: HttpRequest, obj: Shop, form: object, change: bool) -> None:
        obj.pk = SHOP_PK
        obj.save()
