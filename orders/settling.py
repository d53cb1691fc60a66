"""What an order's payments come to. The figures on the order are made here alone, from the rows."""

from datetime import datetime

from django.db.models import Max, QuerySet, Sum

from orders.models import Dispute, Order, Payment, Refund


def settle(order: Order, now: datetime) -> bool:
    """Write on the order what was paid and given back; whether that made it paid for the first time.

    Called in the transaction that changed a payment, a refund or a dispute. It adds up rows, so it does not
    matter which change came first. A dispute that was lost counts as money given back. An invoice number is
    given with the first payment that is enough, in an unbroken row: the unique column keeps two at once from
    having the same.
    """
    order = Order.objects.select_for_update().get(pk=order.pk)
    order.paid_minor = _sum(Payment.objects.filter(order=order, state=Payment.State.PAID))
    given_back = _sum(Refund.objects.filter(payment__order=order, state=Refund.State.DONE))
    order.refunded_minor = given_back + _sum(
        Dispute.objects.filter(payment__order=order, state=Dispute.State.LOST)
    )
    is_first = order.paid_at is None and 0 < order.total_minor <= order.paid_minor
    if is_first:
        order.paid_at = now
        order.invoice_number = (Order.objects.aggregate(last=Max("invoice_number"))["last"] or 0) + 1
    order.save(update_fields=("paid_minor", "refunded_minor", "paid_at", "invoice_number"))
    return is_first


def _sum(rows: QuerySet[Payment] | QuerySet[Refund] | QuerySet[Dispute]) -> int:
    return int(rows.aggregate(total=Sum("amount_minor"))["total"] or 0)
