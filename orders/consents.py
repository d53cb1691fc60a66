"""What a customer agrees to where the law asks for it before digital content is handed over at once.

From memory: Directive 2011/83/EU on consumer rights, article 16 (m), in the European Union and the European
Economic Area, and regulation 37 of the Consumer Contracts (Information, Cancellation and Additional Charges)
Regulations 2013 in the United Kingdom. This is not legal advice: the owner asks a licensed adviser.
"""

from dataclasses import dataclass

# The members as of 2026 (from memory), Iceland, Liechtenstein and Norway, and the United Kingdom.
COUNTRIES = frozenset(
    (
        *(
            "AT",
            "BE",
            "BG",
            "CY",
            "CZ",
            "DE",
            "DK",
            "EE",
            "ES",
            "FI",
            "FR",
            "GR",
            "HR",
            "HU",
            "IE",
            "IT",
            "LT",
        ),
        *("LU", "LV", "MT", "NL", "PL", "PT", "RO", "SE", "SI", "SK", "IS", "LI", "NO", "GB"),
    )
)


@dataclass(frozen=True, slots=True)
class Consent:
    """key: the name of its box. says: what is agreed to. missing: what is said where it is not."""

    key: str
    says: str
    missing: str


CONSENTS = (
    Consent(
        "at_once",
        "I want my files as soon as I have paid, before the days for changing my mind are over.",
        "Tick that you want your files at once. The shop cannot make them for you before you agree to it.",
    ),
    Consent(
        "no_withdrawal",
        "I know that I can then no longer withdraw from the order.",
        "Tick that you know that you can then no longer withdraw from the order.",
    ),
)


def are_asked(country: str, total_minor: int) -> bool:
    """Return whether the consents are asked for: where something is paid, in the countries above."""
    return total_minor > 0 and country in COUNTRIES


def text() -> str:
    """Return the words that are kept with the order: those of today."""
    return "\n".join(consent.says for consent in CONSENTS)
