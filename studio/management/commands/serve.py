from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandParser

from studio.serving import address, refuse_unready, serve

HOST, PORT = "127.0.0.1", 8000


class Command(BaseCommand):
    help = "Serves the shop, with its worker, until it is told to stop; it may run again."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--host", default=HOST, help=f"address to listen on; without it, {HOST}")
        parser.add_argument("--port", type=int, default=PORT, help=f"port to listen on; without it, {PORT}")
        parser.add_argument("--workers", type=int, default=settings.WEB_WORKERS, help="processes")
        parser.add_argument("--threads", type=int, default=settings.WEB_THREADS, help="threads of each")
        parser.add_argument(
            "--no-worker",
            action="store_true",
            help="leave the files of orders to another “work”",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        host, port = options["host"], options["port"]
        refuse_unready(host, port)
        self.stdout.write(f"Serving {address(host, port)}/ (Ctrl-C stops it)")
        self.stdout.flush()
        with_worker = not options["no_worker"]
        serve(host, port, options["workers"], options["threads"], with_worker=with_worker)
