"""The shop as a WSGI application, for the command “serve” or another server."""

import os
import re
from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.core.wsgi import get_wsgi_application
from granian.utils.proxies import wrap_wsgi_with_proxy_headers

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")

CHARSET = re.compile(r";\s*charset\*?\s*=[^;]*", re.IGNORECASE)


def read_as_utf_8(application: Callable[..., Any]) -> Callable[..., Any]:
    """Let what a request says of its letters be unsaid.

    Browsers write UTF-8 and do not say so. Of what strangers say, Django fails over some, before any view or
    middleware is asked.
    """

    def reading(environ: dict[str, Any], start_response: Callable[..., Any]) -> Any:
        environ["CONTENT_TYPE"] = CHARSET.sub("", environ.get("CONTENT_TYPE", ""))
        return application(environ, start_response)

    return reading


# Behind a proxy of ours a request's own address and scheme are what the proxy says; from anyone else
# these headers are not believed.
application = wrap_wsgi_with_proxy_headers(
    read_as_utf_8(get_wsgi_application()), trusted_hosts=settings.TRUSTED_PROXIES
)
