from django.db import migrations


def offer_free(apps, schema_editor):
    """Until now every pattern was free in every size; it stays so until the owner says otherwise."""
    pattern, offer = apps.get_model("patterns", "Pattern"), apps.get_model("patterns", "Offer")
    for each in pattern.objects.filter(offers=None):
        offer.objects.create(pattern=each, kind="free", is_on_sale=True, price_minor=0, currency="")


def take_back(apps, schema_editor):
    """The table itself goes with the migration before; its rows go first."""
    apps.get_model("patterns", "Offer").objects.filter(kind="free").delete()


class Migration(migrations.Migration):
    dependencies = [
        ("patterns", "0002_offers"),
    ]

    operations = [
        migrations.RunPython(offer_free, take_back),
    ]
