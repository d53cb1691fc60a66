import django.db.models.deletion
import django.utils.timezone
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("patterns", "0005_forms_of_patterns"),
    ]

    operations = [
        migrations.CreateModel(
            name="Photograph",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveSmallIntegerField()),
                ("address", models.CharField(editable=False, max_length=64)),
                ("width", models.PositiveIntegerField(editable=False)),
                ("height", models.PositiveIntegerField(editable=False)),
                ("widths", models.JSONField(default=list, editable=False)),
                ("alt", models.CharField(max_length=250, verbose_name="what it shows")),
                ("added_at", models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                (
                    "pattern",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="photographs",
                        to="patterns.pattern",
                    ),
                ),
            ],
            options={
                "ordering": ("pattern", "position", "pk"),
                "constraints": [
                    models.UniqueConstraint(fields=("pattern", "address"), name="photograph_once"),
                ],
            },
        ),
    ]
