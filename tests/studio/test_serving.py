import os
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from studio import serving

PROJECT = Path(__file__).resolve().parents[2]


@pytest.fixture
def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.fixture
def gathered(settings) -> None:
    (settings.STATIC_ROOT / "staticfiles.json").touch()
    yield
    (settings.STATIC_ROOT / "staticfiles.json").unlink()


def test_port_of_another_program_is_refused():
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        with pytest.raises(CommandError, match=rf"^127\.0\.0\.1, port {port}, cannot be served: .*--port\.$"):
            serving.refuse_taken("127.0.0.1", port)


def test_address_of_another_machine_is_refused(free_port):
    with pytest.raises(CommandError, match="cannot be served"):
        serving.refuse_taken("203.0.113.1", free_port)


@pytest.mark.django_db
def test_static_files_must_be_gathered(free_port):
    with pytest.raises(CommandError, match=r"The static files are not gathered\. Run: sh studio/setup\.sh"):
        serving.refuse_unready("127.0.0.1", free_port)


@pytest.mark.django_db
@pytest.mark.usefixtures("gathered")
def test_database_must_be_up_to_date(free_port, monkeypatch):
    serving.refuse_unready("127.0.0.1", free_port)
    monkeypatch.setattr(serving.MigrationExecutor, "migration_plan", lambda *args: ["one to go"])
    with pytest.raises(CommandError, match=r"The database is not up to date\. Run: .*migrate"):
        serving.refuse_unready("127.0.0.1", free_port)


@pytest.mark.django_db
@pytest.mark.usefixtures("gathered")
def test_serve_says_where_and_serves_as_it_is_told(monkeypatch, capsys, free_port):
    told = []
    monkeypatch.setattr(
        "studio.management.commands.serve.serve", lambda *args, **named: told.append((args, named))
    )
    call_command("serve", "--port", str(free_port), "--workers", "1", "--threads", "3")
    call_command("serve", "--port", str(free_port), "--workers", "1", "--threads", "3", "--no-worker")
    where = ("127.0.0.1", free_port, 1, 3)
    assert told == [(where, {"with_worker": True}), (where, {"with_worker": False})]
    assert capsys.readouterr().out == 2 * f"Serving http://127.0.0.1:{free_port}/ (Ctrl-C stops it)\n"


@pytest.fixture
def shop(tmp_path_factory, settings) -> dict[str, str]:
    """The environment of a shop of its own with its fonts, which is set up as setup.sh does it."""
    data = tmp_path_factory.mktemp("served")
    (data / "fonts").symlink_to(settings.FONTS_DIR)
    environment = {**os.environ, "SHOP_DATA": str(data)}
    for command in (["migrate", "--verbosity=0"], ["collectstatic", "--no-input", "--verbosity=0"]):
        subprocess.run([sys.executable, "manage.py", *command], cwd=PROJECT, env=environment, check=True)
    return environment


def fetched(url: str, patience: float = 30) -> tuple[int, dict[str, str], str]:
    """The answer, waited for until the server is up."""
    until = time.monotonic() + patience
    while True:
        try:
            with urllib.request.urlopen(url, timeout=10) as answer:  # noqa: S310 - our own server
                return answer.status, dict(answer.headers), answer.read().decode()
        except ConnectionError:
            if time.monotonic() > until:
                raise
        except urllib.error.URLError as error:
            if not isinstance(error.reason, ConnectionError) or time.monotonic() > until:
                raise
        time.sleep(0.2)


def child_that_runs(parent: int, command: str, patience: float = 30) -> int:
    """The number of a server's child that runs a command of the shop, waited for."""
    until = time.monotonic() + patience
    while time.monotonic() < until:
        for thread in Path(f"/proc/{parent}/task").iterdir():
            for child in (thread / "children").read_text().split():
                if command in Path(f"/proc/{child}/cmdline").read_text().split("\0"):
                    return int(child)
        time.sleep(0.1)
    raise AssertionError(f"No child runs {command}.")


def stop(server: subprocess.Popen) -> None:
    server.send_signal(signal.SIGTERM)


def press_ctrl_c(server: subprocess.Popen) -> None:
    """As a terminal does: every process of its group is told, not only the server."""
    os.killpg(server.pid, signal.SIGINT)


def test_shop_is_served_with_its_worker_and_stops_when_told(shop, free_port):
    command = [sys.executable, "manage.py", "serve", "--port", str(free_port), "--workers", "1"]
    to = {"stdout": subprocess.PIPE, "stderr": subprocess.STDOUT, "text": True, "start_new_session": True}
    for tell in (stop, press_ctrl_c):
        with subprocess.Popen(command, cwd=PROJECT, env=shop, **to) as server:
            try:
                status, headers, page = fetched(f"http://127.0.0.1:{free_port}/")
                assert (status, headers["x-frame-options"]) == (200, "DENY")
                style = page.split('<link rel="stylesheet" href="')[1].split('"')[0]
                status, headers, _ = fetched(f"http://127.0.0.1:{free_port}{style}")
                assert (status, "immutable" in headers["cache-control"]) == (200, True)
                worker = child_that_runs(server.pid, "work")
            finally:
                tell(server)
            assert server.wait(timeout=60) == 0
            assert not Path(f"/proc/{worker}").exists()
            # Nothing more: no process had to be killed because it did not stop.
            assert server.stdout.read() == f"Serving http://127.0.0.1:{free_port}/ (Ctrl-C stops it)\n"
