"""Money for people. It is kept as whole minor units: 650 of GBP is £6.50."""

from decimal import Decimal

from babel import Locale
from babel.numbers import NumberPattern, get_currency_symbol, parse_pattern

LOCALE = Locale("en")
# How many decimals a currency has, where that is not two (ISO 4217, recalled). Babel's own numbers are those
# of daily use: they leave out the minor units of the dinar and the forint, which are charged all the same.
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
    ('£6.50', '¥650', 'Free')
    """
    return priced(minor, currency) if minor else "Free"


def priced(minor: int, currency: str) -> str:
    """Return an amount with its currency, also where it is nothing: `£0.00`, a tax or what is left."""
    decimals = DECIMALS.get(currency, 2)
    # Letters are parted from the figures by a space that no line breaks at.
    gap = "\N{NO-BREAK SPACE}" if get_currency_symbol(currency, LOCALE)[-1:].isalpha() else ""
    pattern: NumberPattern = parse_pattern(
        LOCALE.currency_formats["standard"].pattern.replace("¤", f"¤{gap}")
    )
    pattern.frac_prec = (decimals, decimals)
    value = Decimal(minor).scaleb(-decimals)
    return str(pattern.apply(value, LOCALE, currency=currency, currency_digits=False))


def amount(minor: int, currency: str) -> str:
    """Return an amount as digits, without its currency: `6.50`."""
    decimals = DECIMALS.get(currency, 2)
    whole, rest = divmod(minor, 10**decimals)
    return f"{whole}.{rest:0{decimals}d}" if decimals else str(whole)


def read_amount(text: str, currency: str) -> int:
    """Return the minor units of an amount as people type it: `6.50`, `6,50` or `6`.

    Raises ValueError with a sentence: it is no amount, or it has more decimals than the currency.
    """
    decimals = DECIMALS.get(currency, 2)
    whole, mark, rest = text.strip().replace(",", ".").partition(".")
    example = amount(650 * 10**decimals // 100 if decimals else 650, currency)
    if not (_digits(whole) and len(whole) <= 9 and (not mark or _digits(rest))):
        raise ValueError(f"“{text[:20]}” is not an amount. Write it like {example}.")
    if len(rest) > decimals:
        places = "no decimals" if not decimals else f"{decimals} decimals at most"
        raise ValueError(f"“{text[:20]}” has too many decimals: {currency} has {places}.")
    return int(whole + rest.ljust(decimals, "0"))


def _digits(text: str) -> bool:
    return text.isascii() and text.isdigit()
