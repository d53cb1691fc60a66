from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("orders", "0002_templates"),
    ]

    operations = [
        migrations.AddField(
            model_name="orderline",
            name="wish",
            field=models.JSONField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="orderline",
            name="layouts",
            field=models.JSONField(blank=True, null=True),
        ),
    ]
