from django.contrib.sitemaps.views import sitemap
from django.urls import path, register_converter

from patterns import offer_views, owner_views, views
from patterns.feed import RevisionFeed
from patterns.robots import robots
from patterns.sheets import SheetConverter
from patterns.sitemap import SITEMAPS

app_name = "patterns"
register_converter(SheetConverter, "sheet")

urlpatterns = [
    path("", views.pattern_list, name="pattern-list"),
    path("feed/", RevisionFeed(), name="feed"),
    path("sitemap.xml", sitemap, {"sitemaps": SITEMAPS}, name="sitemap"),
    path("robots.txt", robots, name="robots"),
    path("patterns/<slug:slug>/", views.pattern_detail, name="pattern-detail"),
    path("patterns/<slug:slug>/what-goes-in/", views.pattern_holding, name="pattern-holding"),
    path("patterns/<slug:slug>/from-cloth/", views.pattern_from_cloth, name="pattern-from-cloth"),
    path("patterns/<slug:slug>/cloth/", views.pattern_buying, name="pattern-buying"),
    path("patterns/<slug:slug>/pieces/", views.pattern_pieces, name="pattern-pieces"),
    path("patterns/<slug:slug>/making/", views.pattern_making, name="pattern-making"),
    path("patterns/<slug:slug>/sizes/", views.pattern_sizes, name="pattern-sizes"),
    path("patterns/<slug:slug>/<sheet:sheet>.pdf", views.pattern_sheet, name="pattern-sheet"),
    path("workroom/prices/", offer_views.offer_list, name="offer-list"),
    path("workroom/patterns/<slug:slug>/prices/", offer_views.pattern_offers, name="pattern-offers"),
    path("workroom/ranges/", owner_views.range_list, name="range-list"),
    path("workroom/patterns/<slug:slug>/range/", owner_views.range_chart, name="range-chart"),
]
