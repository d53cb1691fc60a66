import os
import shutil
import stat
import subprocess
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parents[2]
NAMES = ("SECRET_KEY", "DJANGO_ALLOW_ASYNC_UNSAFE", "DJANGO_SETTINGS_MODULE")


def setup(home: Path, *options: str, **variables: str) -> subprocess.CompletedProcess[str]:
    """Run setup.sh as on a machine where the packages are there and nothing is set."""
    kept = {name: text for name, text in os.environ.items() if name not in NAMES}
    command = ["sh", str(PROJECT / "studio" / "setup.sh"), *options]
    environment = {**kept, "HOME": str(home), **variables}
    return subprocess.run(command, cwd=home, env=environment, capture_output=True, text=True, check=False)


@pytest.fixture
def home(tmp_path) -> Path:
    (tmp_path / "home").mkdir()
    return tmp_path / "home"


def test_unknown_option_is_refused(home):
    ended = setup(home, "--test")
    assert (ended.returncode, ended.stdout) == (1, "")
    assert ended.stderr == "setup: Write: sh studio/setup.sh, or: sh studio/setup.sh --tests\n"


def test_setup_makes_a_shop_once(home, tmp_path, settings):
    """The fonts are those of this test run, since they take long; test_fonts.py builds them anew."""
    data = tmp_path / "shop"
    data.mkdir()
    shutil.copytree(settings.FONTS_DIR, data / "fonts")
    first = setup(home, "--tests", SHOP_DATA=str(data))
    assert (first.stderr, first.returncode) == ("", 0)
    assert first.stdout.splitlines()[-1] == f"setup: ready; the shop's data is in {data}"
    key = data / "secret-key"
    assert stat.S_IMODE(key.stat().st_mode) == 0o600
    assert len(key.read_text().strip()) >= 50
    assert (data / "shop.sqlite3").is_file()
    assert (data / "static" / "staticfiles.json").is_file()
    secret = key.read_text()
    again = setup(home, "--tests", SHOP_DATA=str(data))
    assert (again.stderr, again.stdout) == ("", f"setup: ready; the shop's data is in {data}\n")
    assert key.read_text() == secret


@pytest.fixture
def bare(tmp_path) -> Path:
    """A folder with a copy of the script alone, and `tools/`, which holds no Python and no apt."""
    (tmp_path / "studio").mkdir()
    (tmp_path / "tools").mkdir()
    shutil.copy(PROJECT / "studio" / "setup.sh", tmp_path / "studio")
    for tool in ("sh", "env", "dirname", "cat", "cksum", "mktemp", "rm"):
        (tmp_path / "tools" / tool).symlink_to(shutil.which(tool))
    (tmp_path / "tools" / "id").write_text("#!/bin/sh\necho 0\n")
    (tmp_path / "tools" / "id").chmod(0o755)
    return tmp_path


def add_tool(file: Path, script: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(f"#!/bin/sh\n{script}\n")
    file.chmod(0o755)


def add_python_without_libraries(bare: Path) -> None:
    """A virtual environment whose Python does all that it is told, but finds no library."""
    add_tool(bare / ".venv" / "bin" / "python", 'if [ "$1" = - ]; then exit 1; fi')
    (bare / "requirements.txt").touch()


def setup_in(bare: Path) -> subprocess.CompletedProcess[str]:
    command = ["sh", str(bare / "studio" / "setup.sh")]
    environment = {"PATH": str(bare / "tools")}
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=False)


def assert_names_every_system(said: str) -> None:
    for system in ("Debian, Ubuntu:", "Fedora:", "Alpine:", "macOS:"):
        assert system in said


def test_machine_without_python_is_told_what_to_install(bare):
    ended = setup_in(bare)
    assert (ended.returncode, ended.stdout) == (1, "")
    assert ended.stderr.startswith("setup: Python 3.11 or newer is needed, and was not found.")
    assert_names_every_system(ended.stderr)


def test_machine_without_libraries_and_apt_is_told_what_to_install(bare):
    add_python_without_libraries(bare)
    ended = setup_in(bare)
    assert ended.returncode == 1
    assert ended.stderr.startswith("setup: The PDF writer needs libraries that are not here.")
    assert_names_every_system(ended.stderr)


def test_missing_libraries_are_installed_by_apt(bare):
    add_python_without_libraries(bare)
    add_tool(bare / "tools" / "apt-get", f'echo "$@" >>"{bare}/asked"')
    ended = setup_in(bare)
    libraries = "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
    wanted = ["update", f"install -y --no-install-recommends {libraries}"]
    assert (bare / "asked").read_text().splitlines() == wanted
    assert f"setup: installing {libraries} from the system's packages" in ended.stdout


def test_what_apt_says_is_shown_where_it_fails(bare):
    add_python_without_libraries(bare)
    add_tool(bare / "tools" / "apt-get", "echo 'no network'; exit 100")
    assert setup_in(bare).stderr.startswith("no network\nsetup: The PDF writer needs libraries")


def test_a_python_that_can_make_an_environment_is_taken_before_one_that_cannot(bare):
    add_tool(bare / "tools" / "python3", 'case "$2" in *ensurepip*) exit 1 ;; esac')
    add_tool(bare / "tools" / "python3.12", 'if [ "$1" = --version ]; then echo "the whole one"; fi')
    assert setup_in(bare).stdout.startswith("setup: making .venv with the whole one\n")
