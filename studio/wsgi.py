"""The shop as a WSGI application, for the command “serve” or another server."""

import os

from django.conf import settings
from django.core.wsgi import get_wsgi_application
from granian.utils.proxies import wrap_wsgi_with_proxy_headers

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")

# Behind a proxy of ours a request's own address and scheme are what the proxy says; from anyone else
# these headers are not believed.
application = wrap_wsgi_with_proxy_headers(get_wsgi_application(), trusted_hosts=settings.TRUSTED_PROXIES)
