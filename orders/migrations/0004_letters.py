import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("orders", "0003_orderline_wish"),
    ]

    operations = [
        migrations.CreateModel(
            name="Letter",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "kind",
                    models.CharField(
                        choices=[("order_placed", "Order placed"), ("links_again", "Links again")],
                        max_length=30,
                    ),
                ),
                ("to", models.EmailField(max_length=254)),
                ("subject", models.CharField(max_length=200)),
                ("text", models.TextField()),
                ("html", models.TextField()),
                ("created_at", models.DateTimeField()),
                ("due_at", models.DateTimeField(blank=True, null=True)),
                ("tries", models.PositiveIntegerField(default=0)),
                ("sent_at", models.DateTimeField(blank=True, null=True)),
                ("last_error", models.CharField(blank=True, default="", max_length=500)),
                ("orders", models.ManyToManyField(related_name="letters", to="orders.order")),
            ],
        ),
        migrations.CreateModel(
            name="LinksAsked",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("email", models.EmailField(blank=True, max_length=254)),
                ("email_hash", models.CharField(max_length=64)),
                ("source", models.CharField(max_length=64)),
                ("asked_at", models.DateTimeField()),
                ("answered_at", models.DateTimeField(blank=True, null=True)),
            ],
            options={
                "indexes": [
                    models.Index(fields=["email_hash", "asked_at"], name="links_email_asked"),
                    models.Index(fields=["source", "asked_at"], name="links_source_asked"),
                    models.Index(fields=["answered_at", "asked_at"], name="links_answered_asked"),
                ],
            },
        ),
        migrations.CreateModel(
            name="OrderLink",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("link_hash", models.CharField(max_length=64, unique=True)),
                ("made_at", models.DateTimeField()),
                (
                    "letter",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="links", to="orders.letter"
                    ),
                ),
                (
                    "order",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="links", to="orders.order"
                    ),
                ),
            ],
        ),
        migrations.AddIndex(
            model_name="letter",
            index=models.Index(fields=["sent_at", "due_at"], name="letter_sent_due"),
        ),
        migrations.AddConstraint(
            model_name="letter",
            constraint=models.CheckConstraint(
                condition=models.Q(("sent_at", None), ("due_at", None), _connector="OR"),
                name="letter_sent_is_not_due",
            ),
        ),
    ]
