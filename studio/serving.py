"""The built-in web server: granian, several processes of several threads each."""

import logging
import os
import signal
import socket
import sys
from contextlib import nullcontext

from django.conf import settings
from django.core.management.base import CommandError
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from studio.env import PROJECT
from studio.keeping import kept_running

# Seconds that a request under way has to end when the server is told to stop.
PATIENCE = 20
WORKER = (sys.executable, str(PROJECT / "manage.py"), "work", "--ends-with-input")


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


def serve(host: str, port: int, workers: int, threads: int, *, with_worker: bool) -> None:
    """Serve the shop until the process is told to stop (Ctrl-C, or SIGTERM).

    with_worker: whether the process that makes the files of orders runs beside it.
    """
    from granian.constants import Interfaces
    from granian.log import LogLevels
    from granian.server import Server

    # The command's own connection must not be shared with the processes that it starts.
    connection.close()
    logging.getLogger("_granian").setLevel(logging.WARNING)
    server = Server(
        "studio.wsgi:application",
        address=host,
        port=port,
        interface=Interfaces.WSGI,
        workers=workers,
        blocking_threads=threads,
        respawn_failed_workers=True,
        workers_kill_timeout=PATIENCE,
        log_level=LogLevels.warning,
    )
    # Ctrl-C goes to every process of the terminal. A web process that is told by it and then by the server,
    # too, never stops; so only the server hears it.
    os.register_at_fork(after_in_child=_be_deaf_to_ctrl_c)
    with kept_running(WORKER) if with_worker else nullcontext():
        server.serve()


def _be_deaf_to_ctrl_c() -> None:
    signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
