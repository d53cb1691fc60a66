from django.urls import path

from patterns import owner_views, views

app_name = "patterns"

urlpatterns = [
    path("", views.pattern_list, name="pattern-list"),
    path("patterns/<slug:slug>/", views.pattern_detail, name="pattern-detail"),
    path("patterns/<slug:slug>/pieces/", views.pattern_pieces, name="pattern-pieces"),
    path("workroom/ranges/", owner_views.range_list, name="range-list"),
    path("workroom/patterns/<slug:slug>/range/", owner_views.range_chart, name="range-chart"),
]
