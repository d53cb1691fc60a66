"""Any size for a year: further sizes of a pattern, added to the order that it was bought with."""

from datetime import datetime

from django.db import transaction
from django.db.models import Max

from orders.errors import NotForSaleError, NotPaidError, RefusedSizeError
from orders.models import Order, OrderLine
from orders.placing import keep_line, refuse_superseded
from orders.selling import local_day
from patterns.cutting.wish import NO_WISH, Wish
from patterns.cutting.wish import to_json as wish_json
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sized_json import to_json
from patterns.models import Revision


def add_size(
    bought: OrderLine, revision: Revision, sized: SizedPattern, cloth: Wish, now: datetime
) -> OrderLine:
    """Add a size to the order, or find the line that has it already: sent twice, it is one line.

    bought: the line that was sold with any size for a year.
    Raises NotPaidError; NotForSaleError: the year is over; RevisedError; RefusedSizeError.
    """
    if sized.is_refused:
        raise RefusedSizeError
    data, wish = to_json(sized), None if cloth == NO_WISH else wish_json(cloth)
    with transaction.atomic():
        order = Order.objects.select_for_update().get(pk=bought.order_id)
        if not order.is_paid:
            raise NotPaidError(order)
        if bought.any_size_until is None or local_day(now) > bought.any_size_until:
            raise NotForSaleError
        refuse_superseded(revision)
        for line in order.lines.filter(revision=revision):
            if line.sized == data and line.wish == wish:
                return line
        last = order.lines.aggregate(last=Max("position"))["last"]
        line = OrderLine(
            order=order,
            position=last + 1,
            revision=revision,
            title=sized.title,
            sized=data,
            wish=wish,
            own_cloth=bought.own_cloth,
            price_minor=0,
            currency=order.currency,
            offer=bought.offer,
            offer_kind=bought.offer_kind,
            licence=bought.licence,
            batch_licence=bought.batch_licence,
            is_included=True,
        )
        keep_line(line, sized)
    return line
