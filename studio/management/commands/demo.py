from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandParser
from django.urls import reverse

from studio import demo
from studio.management.commands.serve import HOST, PORT
from studio.models import Shop
from studio.serving import address, refuse_taken


class Command(BaseCommand):
    help = "Fills an invented shop, issues an order and serves the site; run again, it keeps what is there."
    # The tables may not be there yet.
    requires_migrations_checks = False

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--no-serve", action="store_true", help="stop before the site is served")
        parser.add_argument("--host", default=HOST, help=f"address to serve; without it, {HOST}")
        parser.add_argument("--port", type=int, default=PORT, help=f"port to serve; without it, {PORT}")

    def handle(self, *args: Any, **options: Any) -> None:
        host, port = options["host"], options["port"]
        if not options["no_serve"]:
            refuse_taken(host, port)
        call_command("migrate", interactive=False, verbosity=0)
        demo.refuse_real_orders()
        demo.make_shop()
        self.stdout.write(f"Shop: {Shop.objects.current()}, invented.")
        for pattern in demo.publish_starters():
            self.stdout.write(f"Published: {pattern.title}.")
        self.tell_owner(demo.make_owner(), address(host, port))
        self.tell_order(demo.issue_order(), address(host, port))
        if not options["no_serve"]:
            call_command("serve", host=host, port=port, stdout=self.stdout)

    def tell_owner(self, password: str | None, site: str) -> None:
        login = f"Owner: {demo.OWNER}, at {site}{reverse('account_login')}"
        if password is None:
            lost = f"a lost password: manage.py changepassword {demo.OWNER}"
            self.stdout.write(f"{login}; {lost}; a lost phone: manage.py forget_second_factor {demo.OWNER}")
        else:
            self.stdout.write(f"{login} with the password {password} (shown this once)")
            self.stdout.write("A code from a phone comes second; in the demo, “Later” passes it over.")

    def tell_order(self, made: demo.DemoOrder, site: str) -> None:
        link = f", at {site}{reverse('orders:order-detail', args=[made.token])}" if made.token else ""
        self.stdout.write(f"{made.order}{link}")
        if not settings.EMAIL_HOST:
            self.stdout.write(f"Letters to customers, which nobody gets here: {settings.EMAIL_FILE_PATH}")
        self.stdout.write(f"Its book: {made.book}")
        self.stdout.flush()
