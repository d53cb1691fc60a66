import os
import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from orders.sweeping import work
from studio.stopping import Told

# Pages are answered first.
LESS_URGENT = 5


class Command(BaseCommand):
    help = (
        "Makes the files of orders, and does whatever else is due, until it is told to stop; "
        "“serve” and “demo” start it themselves, and a second one does no harm."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "--ends-with-input",
            action="store_true",
            help="stop when the input ends: for whoever starts it and may be killed",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        os.nice(LESS_URGENT)
        if options["ends_with_input"]:
            work(Told(sys.stdin.fileno()))
        else:
            self.stdout.write("At work (Ctrl-C stops it)")
            self.stdout.flush()
            work(Told())
