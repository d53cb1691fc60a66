from django.urls import path

from patterns import views

app_name = "patterns"

urlpatterns = [
    path("", views.pattern_list, name="pattern-list"),
    path("patterns/<slug:slug>/", views.pattern_detail, name="pattern-detail"),
    path("patterns/<slug:slug>/pieces/", views.pattern_pieces, name="pattern-pieces"),
]
