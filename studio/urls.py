from allauth.account.decorators import secure_admin_login
from allauth.account.models import EmailAddress
from allauth.mfa.models import Authenticator
from django.contrib import admin
from django.urls import include, path

admin.site.site_header = admin.site.site_title = "Workroom"
admin.site.index_title = "The shop's records"
# Django's own login page knows no second factor. This must stand before `admin.site.urls` is read: later it
# changes nothing and says nothing.
admin.site.login = secure_admin_login(admin.site.login)  # type: ignore[method-assign]
# What the login keeps is changed on its own pages, where the password is asked for.
admin.site.unregister([EmailAddress, Authenticator])

urlpatterns = [
    path("admin/", admin.site.urls),
    path("workroom/login/", include("studio.login_urls")),
    path("", include("patterns.urls")),
    path("", include("orders.urls")),
]
