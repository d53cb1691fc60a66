"""Who may read the owner's pages."""

from collections.abc import Callable

from django.contrib.admin.views.decorators import staff_member_required
from django.contrib.auth.decorators import permission_required
from django.http import HttpResponseBase
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

View = Callable[..., HttpResponseBase]


def owners_page(permission: str) -> Callable[[View], View]:
    """A page to be read by staff who may see such records; others are asked to log in. Never cached."""

    def guarded(view: View) -> View:
        allowed = permission_required(permission, raise_exception=True)(view)
        return require_safe(never_cache(staff_member_required(allowed)))

    return guarded
