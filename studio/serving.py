"""The built-in web server: granian, several processes of several threads each."""

import logging
import socket

from django.conf import settings
from django.core.management.base import CommandError
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

# Seconds that a request under way has to end when the server is told to stop.
PATIENCE = 20


def address(host: str, port: int) -> str:
    """Return where a browser finds what is served there.

    >>> address("::1", 8000)
    'http://[::1]:8000'
    """
    return f"http://[{host}]:{port}" if ":" in host else f"http://{host}:{port}"


def refuse_unready(host: str, port: int) -> None:
    """Raise CommandError, with what to run, where the server would start and the shop not work."""
    executor = MigrationExecutor(connection)
    if executor.migration_plan(executor.loader.graph.leaf_nodes()):
        raise CommandError("The database is not up to date. Run: .venv/bin/python manage.py migrate")
    if not settings.DEBUG and not (settings.STATIC_ROOT / "staticfiles.json").is_file():
        raise CommandError("The static files are not gathered. Run: sh studio/setup.sh")
    refuse_taken(host, port)


def refuse_taken(host: str, port: int) -> None:
    """Raise CommandError where the address is another program's, or not this machine's."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family, socket.SOCK_STREAM) as taken:
        taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            taken.bind((host, port))
        except OSError as error:
            reason = error.strerror or str(error)
            raise CommandError(
                f"{host}, port {port}, cannot be served: {reason}. Give another --port."
            ) from error


def serve(host: str, port: int, workers: int, threads: int) -> None:
    """Serve the shop until the process is told to stop (Ctrl-C, or SIGTERM)."""
    from granian.constants import Interfaces
    from granian.log import LogLevels
    from granian.server import Server

    # The command's own connection must not be shared with the processes that it starts.
    connection.close()
    logging.getLogger("_granian").setLevel(logging.WARNING)
    Server(
        "studio.wsgi:application",
        address=host,
        port=port,
        interface=Interfaces.WSGI,
        workers=workers,
        blocking_threads=threads,
        respawn_failed_workers=True,
        workers_kill_timeout=PATIENCE,
        log_level=LogLevels.warning,
    ).serve()
