"""Customers of earlier orders have their files: nobody writes to them that they are ready."""

from django.db import migrations, models


def seen(apps, schema_editor):
    apps.get_model("orders", "Order").objects.filter(ready_at=None).update(ready_at=models.F("placed_at"))


class Migration(migrations.Migration):
    dependencies = [
        ("orders", "0009_corrections"),
    ]

    operations = [
        migrations.RunPython(seen, migrations.RunPython.noop),
    ]
