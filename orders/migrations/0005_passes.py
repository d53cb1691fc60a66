import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("orders", "0004_letters"),
    ]

    operations = [
        migrations.CreateModel(
            name="DownloadPass",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.PositiveIntegerField()),
                ("token_hash", models.CharField(max_length=64, unique=True)),
                ("made_at", models.DateTimeField()),
                ("ends_at", models.DateTimeField()),
                ("most", models.PositiveIntegerField(verbose_name="downloads it is good for")),
                ("used", models.PositiveIntegerField(default=0, verbose_name="downloads so far")),
                ("renewed_at", models.DateTimeField(blank=True, null=True)),
            ],
            options={
                "verbose_name_plural": "download passes",
                "ordering": ("order", "number"),
            },
        ),
        migrations.AddField(
            model_name="issueddocument",
            name="attempts",
            field=models.PositiveSmallIntegerField(default=0),
        ),
        migrations.AddField(
            model_name="issueddocument",
            name="failure",
            field=models.CharField(
                blank=True, default="", max_length=300, verbose_name="why it could not be made"
            ),
        ),
        migrations.AddField(
            model_name="issueddocument",
            name="try_after",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="orderline",
            name="beside",
            field=models.OneToOneField(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="other_system",
                to="orders.orderline",
            ),
        ),
        migrations.AddIndex(
            model_name="issueddocument",
            index=models.Index(
                condition=models.Q(("issued_at", None)), fields=["try_after"], name="document_wanted"
            ),
        ),
        migrations.AddField(
            model_name="downloadpass",
            name="order",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.PROTECT, related_name="passes", to="orders.order"
            ),
        ),
        migrations.AddConstraint(
            model_name="downloadpass",
            constraint=models.UniqueConstraint(fields=("order", "number"), name="pass_number_once"),
        ),
        migrations.AddConstraint(
            model_name="downloadpass",
            constraint=models.UniqueConstraint(
                condition=models.Q(("renewed_at", None)), fields=("order",), name="pass_one_open_for_an_order"
            ),
        ),
        migrations.AddConstraint(
            model_name="downloadpass",
            constraint=models.CheckConstraint(
                condition=models.Q(("used__lte", models.F("most"))), name="pass_not_overused"
            ),
        ),
    ]
