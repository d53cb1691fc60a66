"""A Django application that answers “ok”: the yardstick of the load benchmark, served as the shop is."""

from django.conf import settings
from django.core.wsgi import get_wsgi_application
from django.http import HttpRequest, HttpResponse
from django.urls import path

settings.configure(
    ALLOWED_HOSTS=["127.0.0.1"], SECRET_KEY="for a yardstick only", ROOT_URLCONF=__name__, MIDDLEWARE=[]
)


def trivial(request: HttpRequest) -> HttpResponse:
    return HttpResponse("ok")


urlpatterns = [path("", trivial)]
application = get_wsgi_application()
