from django.urls import path, register_converter

from orders import (
    checkout_views,
    delivery_views,
    keeping_views,
    links_views,
    local_views,
    owner_corrections,
    owner_payments,
    owner_views,
    payment_views,
    revising_views,
    steps_views,
    views,
    year_views,
)
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
    path(
        "orders/<token:token>/<int:line>/own-cloth/<slug:role>.jpg",
        delivery_views.order_cloth,
        name="own-cloth",
    ),
    path("orders/<token:token>/<int:line>/files/", delivery_views.order_files, name="order-files"),
    path("orders/<token:token>/<int:line>/steps/", steps_views.order_steps, name="order-steps"),
    path("orders/<token:token>/<int:line>/other-units/", delivery_views.other_system, name="other-system"),
    path("orders/<token:token>/links/", delivery_views.pass_renew, name="pass-renew"),
    path("orders/<token:token>/receipt-<paper:paper>.pdf", delivery_views.receipt, name="receipt"),
    path(
        "downloads/<token:token>/<int:line>/<slug:kind>-<slug:paper>.pdf",
        delivery_views.download,
        name="download",
    ),
    path("patterns/<slug:slug>/basket/", checkout_views.basket_add, name="basket-add"),
    path("basket/", checkout_views.basket, name="basket"),
    path("basket/check/", checkout_views.basket_check, name="basket-check"),
    path("basket/<slug:item>/out/", checkout_views.basket_remove, name="basket-remove"),
    path("orders/<token:token>/pay/", payment_views.pay, name="pay"),
    path("orders/<token:token>/payment/", payment_views.payment_part, name="payment-part"),
    path("payments/back/<int:number>/", payment_views.payment_back, name="payment-back"),
    path("payments/<slug:name>/messages/", payment_views.payment_message, name="payment-message"),
    path("payments/demonstration/<slug:reference>/", local_views.local_checkout, name="local-checkout"),
    path("orders/<token:token>/<int:line>/another-size/", year_views.another_size, name="another-size"),
    path("workroom/", owner_views.workroom, name="workroom"),
    path("workroom/corrections/", owner_corrections.owner_corrections, name="owner-corrections"),
    path("workroom/corrections/<int:pk>/", owner_corrections.owner_correction, name="owner-correction"),
    path("workroom/revisions/<int:pk>/tell/", revising_views.revision_tell, name="revision-tell"),
    path("workroom/corrected/<int:pk>/seen/", owner_corrections.correction_seen, name="correction-seen"),
    path("workroom/patterns/<slug:slug>/revision/", revising_views.pattern_revise, name="pattern-revise"),
    path(
        "workroom/patterns/<slug:slug>/revision/check/", revising_views.revision_check, name="revision-check"
    ),
    path("workroom/patterns/<slug:slug>/revision/drop/", revising_views.draft_drop, name="draft-drop"),
    path("kept/", keeping_views.what_is_kept, name="what-is-kept"),
    path("workroom/kept/", keeping_views.owner_keeping, name="owner-keeping"),
    path("workroom/orders/", owner_views.owner_orders, name="owner-orders"),
    path("workroom/orders/files/", owner_views.try_again, name="try-again"),
    path("workroom/orders/orders.csv", owner_views.owner_orders_csv, name="owner-orders-csv"),
    path("workroom/letters/<int:pk>/again/", owner_views.letter_again, name="letter-again"),
    path("workroom/payments/", owner_payments.owner_payments, name="owner-payments"),
    path("workroom/orders/<int:number>/", owner_payments.owner_order, name="owner-order"),
    path("workroom/payments/<int:pk>/paid/", owner_payments.payment_paid, name="payment-paid"),
    path("workroom/payments/<int:pk>/refund/", owner_payments.payment_refund, name="payment-refund"),
    path("workroom/refunds/<int:pk>/sent/", owner_payments.refund_sent, name="refund-sent"),
    path("workroom/messages/<int:pk>/seen/", owner_payments.event_seen, name="event-seen"),
    path("workroom/sizes/", owner_views.sizes_sold, name="sizes-sold"),
    path("workroom/sizes/sizes-sold.csv", owner_views.sizes_sold_csv, name="sizes-sold-csv"),
]
