from django.db import migrations, models


class Migration(migrations.Migration):
    """Full-size templates are issued beside the book, on one large sheet as well."""

    dependencies = [
        ("orders", "0001_orders_and_sizes_sold"),
    ]

    operations = [
        migrations.AlterField(
            model_name="issueddocument",
            name="kind",
            field=models.CharField(
                choices=[("book", "Instruction book"), ("templates", "Full-size templates")], max_length=20
            ),
        ),
        migrations.AlterField(
            model_name="issueddocument",
            name="paper",
            field=models.CharField(
                choices=[("a4", "A4"), ("letter", "US Letter"), ("large", "one large sheet")], max_length=10
            ),
        ),
    ]
