from typing import Any

from allauth.mfa.models import Authenticator
from django.contrib.auth import get_user_model
from django.core.management.base import BaseCommand, CommandError, CommandParser


class Command(BaseCommand):
    help = (
        "Takes the second factor and the recovery codes off a login, whose owner has lost them and sets it "
        "up anew at the next login; it may run again."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("name", help="the name of the login")

    def handle(self, *args: Any, **options: Any) -> None:
        name = options["name"]
        user = get_user_model().objects.filter(username=name).first()
        if user is None:
            raise CommandError(f"There is no login with the name “{name}”.")
        Authenticator.objects.filter(user=user).delete()
        self.stdout.write(f"{name} has no second factor now, and is asked to set one up at the next login.")
