"""The providers of card payments that this shop can use, by name."""

from django.conf import settings

from orders.providers.interface import Provider
from orders.providers.local import NAME as LOCAL
from orders.providers.local import LocalProvider
from studio.models import Shop

STRIPE = "stripe"
NAMES = (STRIPE, LOCAL)


class NoProviderError(LookupError):
    """This shop has no provider of the name."""


def provider(name: str) -> Provider:
    """Return a provider by its name; one that is not set up here, or not allowed, is none.

    Raises NoProviderError.
    """
    if name == LOCAL and Shop.objects.current().is_demo:
        return LocalProvider()
    if name == STRIPE and settings.STRIPE_SECRET_KEY:
        # Imported when it is wanted: a shop without card payments does not load it.
        from orders.providers.stripe import StripeProvider

        return StripeProvider(settings.STRIPE_SECRET_KEY, settings.STRIPE_WEBHOOK_SECRETS)
    raise NoProviderError(name)


def card_provider(shop: Shop) -> Provider | None:
    """Return the provider that new card payments go to: none where there is none to go to."""
    if settings.STRIPE_SECRET_KEY:
        return provider(STRIPE)
    return provider(LOCAL) if shop.is_demo else None
