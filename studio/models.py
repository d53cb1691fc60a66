import zoneinfo

from django.core.exceptions import ValidationError
from django.core.validators import RegexValidator
from django.db import models

SHOP_PK = 1


def validate_time_zone(name: str) -> None:
    """Refuse a time zone that the zone database does not know."""
    try:
        zoneinfo.ZoneInfo(name)
    except (ValueError, OSError, zoneinfo.ZoneInfoNotFoundError):
        raise ValidationError(f"“{name}” is not a time zone. Write one like Europe/London or UTC.") from None


class ShopManager(models.Manager["Shop"]):
    def current(self) -> "Shop":
        """Return the one shop; where nothing has been saved yet, one with the defaults, unsaved."""
        return self.filter(pk=SHOP_PK).first() or Shop(pk=SHOP_PK)


class Shop(models.Model):
    """The business itself: one row, whatever is saved."""

    class Units(models.TextChoices):
        INCHES = "in", "inches"
        CENTIMETRES = "cm", "centimetres"

    name = models.CharField(max_length=80, default="The pattern room")
    email = models.EmailField("contact email", blank=True, help_text="Shown to customers.")
    currency = models.CharField(
        max_length=3,
        default="GBP",
        validators=[
            RegexValidator(r"^[A-Z]{3}\Z", "Write the three capital letters of a currency: GBP, EUR, USD.")
        ],
        help_text="The three letters of ISO 4217: GBP, EUR, USD.",
    )
    units = models.CharField(
        max_length=2,
        choices=Units.choices,
        default=Units.INCHES,
        help_text="What a customer sees first; each may switch.",
    )
    time_zone = models.CharField(
        max_length=64,
        default="UTC",
        validators=[validate_time_zone],
        help_text="Times are shown in this zone: Europe/London, America/Toronto, UTC.",
    )
    terms = models.TextField(
        blank=True, max_length=4000, help_text="What a customer may do with a pattern; shown on every page."
    )
    cautions = models.TextField(
        "usual cautions",
        blank=True,
        max_length=4000,
        help_text="One on each line; shown on every page.",
    )
    charges_tax = models.BooleanField(
        "charges a sales tax",
        default=False,
        help_text="Leave it off if you are not registered for one. A licensed adviser knows when you must.",
    )
    tax_name = models.CharField(
        "name of the tax",
        max_length=20,
        blank=True,
        default="VAT",
        help_text="As it stands on a receipt: VAT, GST.",
    )
    tax_number = models.CharField(
        "your tax number", max_length=40, blank=True, help_text="It stands on each receipt."
    )
    transfer_details = models.TextField(
        "account for bank transfers",
        max_length=600,
        blank=True,
        help_text="Name, bank and account number, as a customer needs them. Empty: nobody pays by transfer.",
    )
    is_demo = models.BooleanField("invented demo shop", default=False, editable=False)

    objects = ShopManager()

    class Meta:
        verbose_name_plural = "shop"
        constraints = [
            models.CheckConstraint(condition=models.Q(pk=SHOP_PK), name="studio_shop_is_one_row"),
        ]

    def __str__(self) -> str:
        return self.name

    def clean(self) -> None:
        if self.charges_tax and not self.tax_name:
            raise ValidationError({"tax_name": "A tax that is charged needs its name: VAT, GST."})

    @property
    def zone(self) -> zoneinfo.ZoneInfo:
        return zoneinfo.ZoneInfo(self.time_zone)

    @property
    def caution_lines(self) -> tuple[str, ...]:
        """The usual cautions, one by one."""
        return tuple(line.strip() for line in self.cautions.splitlines() if line.strip())


class Counted(models.Model):
    """What the default cache counts: failed logins and codes that were used, for all processes together.

    Django's database cache reads and writes the table itself; the model only makes it.
    """

    cache_key = models.CharField(max_length=255, primary_key=True)
    value = models.TextField()
    expires = models.DateTimeField(db_index=True)

    class Meta:
        db_table = "studio_counted"

    def __str__(self) -> str:
        return self.cache_key
