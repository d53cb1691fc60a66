from django.apps import AppConfig
from django.core.checks import register


class StudioConfig(AppConfig):
    name = "studio"
    verbose_name = "Shop"

    def ready(self) -> None:
        from studio import checks

        register(checks.site_address)
        register(checks.card_payments)
        register(checks.shop_data)
        register(checks.letters)
        register(checks.second_factor, deploy=True)
