from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("patterns", "0003_free_offers"),
    ]

    operations = [
        migrations.AddField(
            model_name="pattern",
            name="form",
            field=models.CharField(blank=True, default="", editable=False, max_length=60),
        ),
    ]
