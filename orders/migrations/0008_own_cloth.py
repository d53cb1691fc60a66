from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("orders", "0007_short_and_plain"),
    ]

    operations = [
        migrations.AddField(
            model_name="orderline",
            name="own_cloth",
            field=models.JSONField(blank=True, null=True),
        ),
    ]
