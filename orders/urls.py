from django.urls import path, register_converter

from orders import links_views, owner_views, views
from orders.keys import TokenConverter

app_name = "orders"
register_converter(TokenConverter, "token")

urlpatterns = [
    path("patterns/<slug:slug>/order/", views.order_new, name="order-new"),
    path("orders/links/", links_views.links_again, name="links-again"),
    path("orders/links/asked/", links_views.links_asked, name="links-asked"),
    path("orders/<token:token>/", views.order_detail, name="order-detail"),
    path("orders/<token:token>/<int:line>/<slug:kind>-<slug:paper>.pdf", views.download, name="download"),
    path("workroom/orders/", owner_views.owner_orders, name="owner-orders"),
    path("workroom/orders/orders.csv", owner_views.owner_orders_csv, name="owner-orders-csv"),
    path("workroom/letters/<int:pk>/again/", owner_views.letter_again, name="letter-again"),
    path("workroom/sizes/", owner_views.sizes_sold, name="sizes-sold"),
    path("workroom/sizes/sizes-sold.csv", owner_views.sizes_sold_csv, name="sizes-sold-csv"),
]
