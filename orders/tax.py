"""The tax within a price. Prices are what a customer pays; tax is a part of them, never put on top."""


def tax_within(gross_minor: int, milli_percent: int) -> int:
    """Return the tax that a price holds, in whole minor units; half a unit goes up, to the tax.

    gross_minor: what is paid, 0 or more. milli_percent: the rate, thousandths of a percent.
    The one rounding of tax in the shop: once for each line; an order's tax is the sum of its lines'.
    Source: tax = gross × rate ÷ (1 + rate), common practice; which rounding a country asks for is for the
    owner to ask.

    >>> tax_within(650, 20_000)
    108
    """
    hundred = 100_000
    whole = hundred + milli_percent
    return (2 * gross_minor * milli_percent + whole) // (2 * whole)
