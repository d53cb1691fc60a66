"""The shop under load: requests a second, the slowest hundredth and the errors, beside a trivial view.

Everything is served by granian as “serve” does it, on loopback, asked by wrk (Debian's package of that name)
for some seconds each. Run by hand: `.venv/bin/python -m tests.benchmarks.load [seconds]`.
"""

import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
WORKERS, THREADS, CONNECTIONS = 2, 2, 8
PATIENCE = 60.0
TRIVIAL = (
    "from granian.server import Server; from granian.constants import Interfaces; import sys; "
    "Server('tests.benchmarks.trivial:application', address='127.0.0.1', port=int(sys.argv[1]), "
    f"interface=Interfaces.WSGI, workers={WORKERS}, blocking_threads={THREADS}).serve()"
)
# Each request asks for another size, as customers do: nothing is answered from what was kept.
ASKS = """
local width, height = 0, 0
wrk.headers["HX-Request"] = {is_part}
request = function()
  width = (width + 1) % 25
  if width == 0 then height = (height + 1) % 9 end
  return wrk.format("GET", string.format("{address}", 7 + width / 4, 4 + height / 4))
end
"""
SIZE = "/patterns/fold-flat-basket/?units=in&width=%.2f&height=%.2f&depth=5"


def free_port() -> int:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return int(taken.getsockname()[1])


@contextmanager
def served(command: Sequence[str], port: int, environment: dict[str, str]) -> Iterator[str]:
    """Run a server until the block ends."""
    with subprocess.Popen(command, cwd=PROJECT, env=environment) as server:
        try:
            wait_for(port)
            yield f"http://127.0.0.1:{port}"
        finally:
            server.terminate()


def wait_for(port: int) -> None:
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        with socket.socket() as asked:
            if asked.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.1)
    raise SystemExit(f"Nothing answers on port {port}.")


def load(address: str, seconds: int, script: str | None = None) -> str:
    """Return what wrk measured, in a line."""
    with tempfile.NamedTemporaryFile("w", suffix=".lua") as file:
        file.write(script or "")
        file.flush()
        asks = ["-s", file.name] if script else []
        command = ["wrk", "-t1", f"-c{CONNECTIONS}", f"-d{seconds}s", "--timeout=10s", "--latency", *asks]
        told = subprocess.run([*command, address], check=True, capture_output=True, text=True).stdout
    found = {
        "requests a second": r"Requests/sec:\s+(\S+)",
        "half within": r"^\s+50%\s+(\S+)$",
        "99 of 100 within": r"^\s+99%\s+(\S+)$",
        "answered otherwise than 2xx or 3xx": r"Non-2xx or 3xx responses: (\d+)",
        "not answered": r"Socket errors: (.+)",
    }
    values = {name: re.search(pattern, told, re.MULTILINE) for name, pattern in found.items()}
    return "; ".join(f"{name} {match[1] if match else 0}" for name, match in values.items())


def main(seconds: int) -> None:
    if not shutil.which("wrk"):
        raise SystemExit("The load comes from wrk. Install it: apt-get install wrk")
    python = sys.executable
    with tempfile.TemporaryDirectory(prefix="shop-load-") as folder:
        port = free_port()
        environment = {**os.environ, "SHOP_DATA": folder, "SITE_URL": f"http://127.0.0.1:{port}"}
        for name in ("fonts", "static"):
            shutil.copytree(PROJECT / ".shop" / name, Path(folder) / name)
        shutil.copy(PROJECT / ".shop" / "secret-key", folder)
        subprocess.run([python, "manage.py", "demo", "--no-serve"], cwd=PROJECT, env=environment, check=True)
        options = [f"--workers={WORKERS}", f"--threads={THREADS}", f"--port={port}", "--no-worker"]
        with served([python, "manage.py", "serve", *options], port, environment) as shop:
            part = ASKS.format(is_part='"true"', address=SIZE)
            page = ASKS.format(is_part="nil", address=SIZE)
            for name, script, where in (
                ("the list of patterns", None, f"{shop}/"),
                ("a pattern's page, another size each time", page, shop),
                ("the part that is swapped for another size", part, shop),
            ):
                print(f"{name}: {load(where, seconds, script)}", flush=True)  # noqa: T201
        port = free_port()
        with served([python, "-c", TRIVIAL, str(port)], port, dict(os.environ)) as trivial:
            print(f"a trivial view: {load(f'{trivial}/', seconds)}", flush=True)  # noqa: T201


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10)
