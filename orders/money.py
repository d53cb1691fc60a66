"""Money for people. It is kept as whole minor units: 650 of GBP is 6.50 GBP."""

# How many decimals a currency has, where that is not two (ISO 4217, recalled).
DECIMALS = {
    **dict.fromkeys(
        ("BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV"), 0
    ),
    **dict.fromkeys(("XAF", "XOF", "XPF"), 0),
    **dict.fromkeys(("BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"), 3),
}


def money(minor: int, currency: str) -> str:
    """Return an amount with its currency; nothing to pay is a word.

    >>> money(650, "GBP"), money(650, "JPY"), money(0, "EUR")
    ('6.50 GBP', '650 JPY', 'Free')
    """
    return f"{amount(minor, currency)} {currency}" if minor else "Free"


def amount(minor: int, currency: str) -> str:
    """Return an amount as digits, without its currency: `6.50`."""
    decimals = DECIMALS.get(currency, 2)
    whole, rest = divmod(minor, 10**decimals)
    return f"{whole}.{rest:0{decimals}d}" if decimals else str(whole)
