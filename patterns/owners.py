"""Who may read the owner's pages, and who may act on them."""

from collections.abc import Callable

from django.contrib.admin.views.decorators import staff_member_required
from django.contrib.auth.decorators import permission_required
from django.http import HttpResponseBase
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

View = Callable[..., HttpResponseBase]


def owners_page(permission: str) -> Callable[[View], View]:
    """A page to be read by staff who may see such records; others are asked to log in. Never cached."""

    def guarded(view: View) -> View:
        return require_safe(_for_staff(permission, view))

    return guarded


def owners_act(permission: str) -> Callable[[View], View]:
    """What a button on an owner's page does: by POST, by staff who may change such records."""

    def guarded(view: View) -> View:
        return require_POST(_for_staff(permission, view))

    return guarded


def owners_form(permission: str) -> Callable[[View], View]:
    """As `owners_page`, for a page that also changes something: it is sent as well as read."""

    def guarded(view: View) -> View:
        guarded_view: View = require_http_methods(["GET", "HEAD", "POST"])(_for_staff(permission, view))
        return guarded_view

    return guarded


def _for_staff(permission: str, view: View) -> View:
    return never_cache(staff_member_required(permission_required(permission, raise_exception=True)(view)))
