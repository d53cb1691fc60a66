from django.urls import path, register_converter

from orders import delivery_views, links_views, owner_views, views
from orders.keys import TokenConverter
from orders.receipts import PaperConverter

app_name = "orders"
register_converter(TokenConverter, "token")
register_converter(PaperConverter, "paper")

urlpatterns = [
    path("patterns/<slug:slug>/order/", views.order_new, name="order-new"),
    path("orders/links/", links_views.links_again, name="links-again"),
    path("orders/links/asked/", links_views.links_asked, name="links-asked"),
    path("orders/<token:token>/", delivery_views.order_detail, name="order-detail"),
    path("orders/<token:token>/<int:line>/files/", delivery_views.order_files, name="order-files"),
    path("orders/<token:token>/<int:line>/other-units/", delivery_views.other_system, name="other-system"),
    path("orders/<token:token>/links/", delivery_views.pass_renew, name="pass-renew"),
    path("orders/<token:token>/receipt-<paper:paper>.pdf", delivery_views.receipt, name="receipt"),
    path(
        "downloads/<token:token>/<int:line>/<slug:kind>-<slug:paper>.pdf",
        delivery_views.download,
        name="download",
    ),
    path("workroom/orders/", owner_views.owner_orders, name="owner-orders"),
    path("workroom/orders/files/", owner_views.try_again, name="try-again"),
    path("workroom/orders/orders.csv", owner_views.owner_orders_csv, name="owner-orders-csv"),
    path("workroom/letters/<int:pk>/again/", owner_views.letter_again, name="letter-again"),
    path("workroom/sizes/", owner_views.sizes_sold, name="sizes-sold"),
    path("workroom/sizes/sizes-sold.csv", owner_views.sizes_sold_csv, name="sizes-sold-csv"),
]
