from django.contrib import admin
from django.urls import include, path

admin.site.site_header = admin.site.site_title = "Workroom"
admin.site.index_title = "The shop's records"

urlpatterns = [
    path("admin/", admin.site.urls),
    path("", include("patterns.urls")),
    path("", include("orders.urls")),
]
