from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from orders.models import Letter
from orders.posting import send_due


class Command(BaseCommand):
    help = "Sends the letters that are due; it may run again, and beside another, and sends none twice."

    def handle(self, *args: Any, **options: Any) -> None:
        done = 0
        while (count := send_due(timezone.now())) > 0:
            done += count
        waiting, given_up = Letter.objects.waiting().count(), Letter.objects.given_up().count()
        self.stdout.write(
            f"Done: {done}. Waiting to be tried again: {waiting}. Waiting for the owner: {given_up}."
        )
