"""Having the links of one's orders sent again: the same answer to everyone."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_safe

from orders.errors import LinksLimitMetError
from orders.forms import LinksForm
from orders.further_links import ask_for_links
from patterns.sources import source
from studio.htmx import redirect_page


@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def links_again(request: HttpRequest) -> HttpResponse:
    form = LinksForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        try:
            ask_for_links(form.cleaned_data["email"], source(request), timezone.now())
        except LinksLimitMetError as error:
            form.add_error(None, str(error))
        else:
            return redirect_page(request, "orders:links-asked")
    return render(request, "orders/links_again.html", {"form": form})


@require_safe
def links_asked(request: HttpRequest) -> HttpResponse:
    """What everyone reads who has asked; it knows nothing of them."""
    return render(request, "orders/links_asked.html")
