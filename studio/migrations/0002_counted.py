from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("studio", "0001_shop"),
    ]

    operations = [
        migrations.CreateModel(
            name="Counted",
            fields=[
                ("cache_key", models.CharField(max_length=255, primary_key=True, serialize=False)),
                ("value", models.TextField()),
                ("expires", models.DateTimeField(db_index=True)),
            ],
            options={
                "db_table": "studio_counted",
            },
        ),
    ]
