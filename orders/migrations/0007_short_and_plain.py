from django.db import migrations, models


class Migration(migrations.Migration):
    """A short form of the book and one in black and white are made when a customer asks for them."""

    dependencies = [
        ("orders", "0006_paying"),
    ]

    operations = [
        migrations.AlterField(
            model_name="issueddocument",
            name="kind",
            field=models.CharField(
                choices=[
                    ("book", "Instruction book"),
                    ("templates", "Full-size templates"),
                    ("short", "Short form"),
                    ("plain", "Book in black and white"),
                ],
                max_length=20,
            ),
        ),
    ]
