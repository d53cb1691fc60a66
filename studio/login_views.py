from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_POST

from studio.htmx import redirect_page
from studio.models import Shop
from studio.second_factor import LATER


@require_POST
@login_required
def second_factor_later(request: HttpRequest) -> HttpResponse:
    """Put off the second factor until the next login; only a demo has this."""
    if not Shop.objects.current().is_demo:
        raise Http404
    request.session[LATER] = True
    return redirect_page(request, "orders:workroom")
