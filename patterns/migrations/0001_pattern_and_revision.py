import django.db.models.deletion
import django.utils.timezone
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = []

    operations = [
        migrations.CreateModel(
            name="Pattern",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True,
                        primary_key=True,
                        serialize=False,
                        verbose_name="ID",
                    ),
                ),
                (
                    "slug",
                    models.SlugField(
                        help_text="In the address: fold-flat-basket.",
                        max_length=60,
                        unique=True,
                        verbose_name="address",
                    ),
                ),
                ("title", models.CharField(blank=True, max_length=200)),
                ("summary", models.TextField(blank=True, max_length=2000)),
                (
                    "is_listed",
                    models.BooleanField(
                        default=False,
                        help_text="Customers see it once it is published.",
                        verbose_name="on the list",
                    ),
                ),
                (
                    "created",
                    models.DateTimeField(default=django.utils.timezone.now, editable=False),
                ),
            ],
            options={
                "ordering": ("title", "slug"),
            },
        ),
        migrations.CreateModel(
            name="Revision",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True,
                        primary_key=True,
                        serialize=False,
                        verbose_name="ID",
                    ),
                ),
                ("number", models.PositiveIntegerField()),
                ("text", models.TextField(verbose_name="recipe text")),
                ("checksum", models.CharField(editable=False, max_length=64)),
                (
                    "published_at",
                    models.DateTimeField(default=django.utils.timezone.now),
                ),
                (
                    "pattern",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="revisions",
                        to="patterns.pattern",
                    ),
                ),
            ],
            options={
                "ordering": ("pattern_id", "-number"),
                "constraints": [
                    models.UniqueConstraint(fields=("pattern", "number"), name="revision_number_once")
                ],
            },
        ),
    ]
