from django.contrib.sitemaps.views import sitemap
from django.urls import path, register_converter

from patterns import offer_views, own_cloth_views, owner_pattern_views, owner_views, photograph_views, views
from patterns.addresses import BY_CLOTH, BY_CONTENTS
from patterns.feed import RevisionFeed
from patterns.photograph_addresses import EndingConverter, HashConverter
from patterns.robots import robots
from patterns.sheets import SheetConverter
from patterns.sitemap import SITEMAPS

app_name = "patterns"
register_converter(SheetConverter, "sheet")
register_converter(HashConverter, "hash")
register_converter(EndingConverter, "picture_ending")

urlpatterns = [
    path("", views.pattern_list, name="pattern-list"),
    path("feed/", RevisionFeed(), name="feed"),
    path("sitemap.xml", sitemap, {"sitemaps": SITEMAPS}, name="sitemap"),
    path("robots.txt", robots, name="robots"),
    path("patterns/<slug:slug>/", views.pattern_detail, name="pattern-detail"),
    path("patterns/<slug:slug>/by/<slug:by>/", views.pattern_way, name="pattern-way"),
    path("patterns/<slug:slug>/what-goes-in/", views.pattern_way, {"by": BY_CONTENTS}),
    path("patterns/<slug:slug>/from-cloth/", views.pattern_way, {"by": BY_CLOTH}),
    path("patterns/<slug:slug>/cloth/", views.pattern_buying, name="pattern-buying"),
    path("patterns/<slug:slug>/pieces/", views.pattern_pieces, name="pattern-pieces"),
    path("patterns/<slug:slug>/making/", views.pattern_making, name="pattern-making"),
    path("patterns/<slug:slug>/sizes/", views.pattern_sizes, name="pattern-sizes"),
    path("patterns/<slug:slug>/own-cloth/", own_cloth_views.pattern_own_cloth, name="pattern-own-cloth"),
    path("patterns/<slug:slug>/own-cloth/off/", own_cloth_views.own_cloth_off, name="own-cloth-off"),
    path("own-cloth/<slug:token>.jpg", own_cloth_views.own_cloth_picture, name="own-cloth-picture"),
    path("patterns/<slug:slug>/<sheet:sheet>.pdf", views.pattern_sheet, name="pattern-sheet"),
    path(
        "photographs/<hash:address>-<int:width>.<picture_ending:ending>",
        photograph_views.photograph_file,
        name="photograph-file",
    ),
    path("workroom/photographs/", photograph_views.photograph_list, name="photograph-list"),
    path(
        "workroom/patterns/<slug:slug>/photographs/",
        photograph_views.pattern_photographs,
        name="pattern-photographs",
    ),
    path(
        "workroom/photographs/<int:pk>/describe/",
        photograph_views.photograph_describe,
        name="photograph-describe",
    ),
    path("workroom/photographs/<int:pk>/move/", photograph_views.photograph_move, name="photograph-move"),
    path(
        "workroom/photographs/<int:pk>/remove/", photograph_views.photograph_remove, name="photograph-remove"
    ),
    path("workroom/prices/", offer_views.offer_list, name="offer-list"),
    path("workroom/patterns/<slug:slug>/prices/", offer_views.pattern_offers, name="pattern-offers"),
    path("workroom/patterns/", owner_pattern_views.owner_patterns, name="owner-patterns"),
    path(
        "workroom/patterns/<slug:slug>/listing/", owner_pattern_views.pattern_listing, name="pattern-listing"
    ),
    path("workroom/recipes/", owner_pattern_views.recipe_guide, name="recipe-guide"),
    path("workroom/ranges/", owner_views.range_list, name="range-list"),
    path("workroom/patterns/<slug:slug>/range/", owner_views.range_chart, name="range-chart"),
]
