from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

# Debian's own browser. The last five keep it from looking for its maker's hosts at every start.
CHROMIUM = Path("/usr/bin/chromium")
CHROMIUM_OPTIONS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    return {**browser_type_launch_args, "executable_path": str(CHROMIUM), "args": CHROMIUM_OPTIONS}


@pytest.fixture
def no_floats(monkeypatch: pytest.MonkeyPatch) -> None:
    """Fail where an exact number is made a float."""

    def refuse(number: Fraction) -> float:
        raise AssertionError(f"{number} was made a float")

    monkeypatch.setattr(Fraction, "__float__", refuse)


@pytest.fixture(autouse=True)
def files_of_this_test(settings: Any, tmp_path: Path) -> None:
    """Give each test a folder of its own for the files that the shop makes."""
    settings.MEDIA_ROOT = tmp_path / "files"


@pytest.fixture(autouse=True)
def owner_has_a_second_factor(monkeypatch: pytest.MonkeyPatch) -> None:
    """Take every owner for one who has set up the second factor; tests of the login override this."""
    monkeypatch.setattr("studio.second_factor.must_set_up", lambda request: False)
