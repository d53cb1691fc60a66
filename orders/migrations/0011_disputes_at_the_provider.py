"""Disputes that the local provider knows of, and when a provider was asked for all of them."""


from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("orders", "0010_files_of_earlier_orders"),
    ]

    operations = [
        migrations.CreateModel(
            name="ProviderLook",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("provider", models.CharField(max_length=20, unique=True)),
                ("asked_at", models.DateTimeField()),
                ("answered_at", models.DateTimeField(blank=True, null=True)),
            ],
        ),
        migrations.AddField(
            model_name="localcharge",
            name="dispute",
            field=models.CharField(
                blank=True,
                choices=[("", "None"), ("open", "Open"), ("won", "Won"), ("lost", "Lost")],
                default="",
                max_length=10,
            ),
        ),
        migrations.AddField(
            model_name="localcharge",
            name="disputed_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
    ]
