import tomllib

from django.db import migrations


def take_over(apps, schema_editor):
    """Until now the form stood in the recipe text alone; the list of patterns asks the row."""
    for pattern in apps.get_model("patterns", "Pattern").objects.all():
        latest = pattern.revisions.order_by("-number").first()
        if latest:
            pattern.form = tomllib.loads(latest.text)["finished"]["form"]
            pattern.save(update_fields=["form"])


class Migration(migrations.Migration):
    dependencies = [
        ("patterns", "0004_pattern_form"),
    ]

    operations = [
        # The column itself goes with the migration before.
        migrations.RunPython(take_over, migrations.RunPython.noop),
    ]
