#!/bin/sh
# Makes this folder ready to run, on a machine that has nothing yet; what is done already is passed over.
#
#   sh studio/setup.sh           the shop
#   sh studio/setup.sh --tests   the shop, and what its tests need
#
# PYTHON names a Python 3.11 or newer where none is found by itself; SHOP_DATA the folder of the shop's data.
set -eu
cd "$(dirname "$0")/.."

LIBRARIES="libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
python=.venv/bin/python
shop=${SHOP_DATA:-.shop}
tests=no
log=

say() { printf 'setup: %s\n' "$*"; }
stop() { printf 'setup: %s\n' "$@" >&2; exit 1; }

case "$#:${1-}" in
    0:) ;;
    1:--tests) tests=yes ;;
    *) stop "Write: sh studio/setup.sh, or: sh studio/setup.sh --tests" ;;
esac

# Runs a command without its output; where it fails, the output is shown.
quietly() {
    [ -n "$log" ] || { log=$(mktemp); trap 'rm -f "$log"' EXIT; }
    "$@" >"$log" 2>&1 </dev/null || { cat "$log" >&2; return 1; }
}

as_root() { if [ "$(id -u)" = 0 ]; then "$@"; else sudo -n "$@"; fi; }

may_use_apt() {
    command -v apt-get >/dev/null 2>&1 || return 1
    [ "$(id -u)" = 0 ] || sudo -n true >/dev/null 2>&1
}

apt_is_current=no
apt_install() {
    say "installing $* from the system's packages"
    if [ "$apt_is_current" = no ]; then
        quietly as_root apt-get update || return 1
        apt_is_current=yes
    fi
    quietly as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@"
}

is_new_enough() {
    command -v "$1" >/dev/null 2>&1 && "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null
}

# ensurepip is what Debian leaves out of its python3.
can_make_venv() { "$1" -c 'import ensurepip, venv' 2>/dev/null; }

# The system's own comes first where it will do: it is built to be quick, by a tenth and more against one that
# was built by hand, and the system keeps it mended.
find_python() {
    found=${PYTHON:-}
    if [ -n "$found" ] && is_new_enough "$found"; then return 0; fi
    pythons="python3 python3.13 python3.12 python3.11 python3.14"
    case ":$PATH:" in *:/usr/bin:*) pythons="/usr/bin/python3 $pythons" ;; esac
    for found in $pythons; do
        if is_new_enough "$found" && can_make_venv "$found"; then return 0; fi
    done
    for found in $pythons; do
        if is_new_enough "$found"; then return 0; fi
    done
    return 1
}

make_venv() {
    if is_new_enough "$python" && "$python" -m pip --version >/dev/null 2>&1; then return 0; fi
    if ! find_python && may_use_apt; then
        apt_install python3 python3-venv || :
        find_python || apt_install python3.11 python3.11-venv || :
    fi
    find_python || stop \
        "Python 3.11 or newer is needed, and was not found. Install it and run this again:" \
        "  Debian, Ubuntu:  sudo apt-get install python3 python3-venv" \
        "  Fedora:          sudo dnf install python3" \
        "  Alpine:          sudo apk add python3" \
        "  macOS:           brew install python@3.13" \
        "or name one: PYTHON=/path/to/python3.11 sh studio/setup.sh"
    name=$("$found" -c 'import sys; print("python%d.%d" % sys.version_info[:2])')
    if ! can_make_venv "$found" && may_use_apt; then apt_install "$name-venv" || :; fi
    can_make_venv "$found" || stop \
        "$found cannot make a virtual environment. Install its venv module and run this again:" \
        "  Debian, Ubuntu:  sudo apt-get install $name-venv"
    say "making .venv with $("$found" --version)"
    quietly "$found" -m venv --clear .venv || stop "The virtual environment was not made."
}

# A stamp holds the list that was installed, so that the same one is not gone through again.
install_packages() {
    list=requirements.txt
    stamp=.venv/installed-shop
    shop_list=$(cksum <requirements.txt)
    wanted=$shop_list
    if [ "$tests" = yes ]; then
        list=tests/requirements.txt
        stamp=.venv/installed-tests
        wanted=$(cat requirements.txt tests/requirements.txt | cksum)
    fi
    if [ "$(cat "$stamp" 2>/dev/null)" = "$wanted" ]; then return 0; fi
    say "installing the packages of $list"
    quietly "$python" -m pip install --quiet --disable-pip-version-check --no-input -r "$list" ||
        stop "The packages were not installed; pip's own words are above."
    printf '%s\n' "$shop_list" >.venv/installed-shop
    printf '%s\n' "$wanted" >"$stamp"
}

# What the PDF writer loads. Each may be named as on Linux or on macOS.
has_libraries() {
    "$python" - <<'EOF'
import ctypes
import ctypes.util
import sys

WANTED = ("pango-1.0", "pangoft2-1.0", "harfbuzz", "harfbuzz-subset", "fontconfig", "gobject-2.0")


def loads(name: str) -> bool:
    for spelled in (f"lib{name}.so.0", f"lib{name}.so.1", f"lib{name}.dylib", ctypes.util.find_library(name)):
        try:
            if spelled and ctypes.CDLL(spelled):
                return True
        except OSError:
            pass
    return False


sys.exit(not all(map(loads, WANTED)))
EOF
}

install_libraries() {
    if has_libraries; then return 0; fi
    # shellcheck disable=SC2086 # one word for each package
    if may_use_apt; then apt_install $LIBRARIES || :; fi
    has_libraries || stop \
        "The PDF writer needs libraries that are not here. Install them and run this again:" \
        "  Debian, Ubuntu:  sudo apt-get install $LIBRARIES" \
        "  Fedora:          sudo dnf install pango harfbuzz fontconfig" \
        "  Alpine:          sudo apk add pango harfbuzz-subset fontconfig" \
        "  macOS:           brew install pango harfbuzz"
}

has_test_tools() { command -v chromium >/dev/null 2>&1 && command -v pdftotext >/dev/null 2>&1; }

install_test_tools() {
    if has_test_tools; then return 0; fi
    if may_use_apt; then apt_install chromium poppler-utils || :; fi
    has_test_tools || stop \
        "The tests need the browser chromium, and pdftotext. Install them and run this again:" \
        "  Debian:          sudo apt-get install chromium poppler-utils" \
        "  Ubuntu:          sudo snap install chromium; sudo apt-get install poppler-utils" \
        "  Fedora:          sudo dnf install chromium poppler-utils" \
        "  Alpine:          sudo apk add chromium poppler-utils" \
        "  macOS:           brew install --cask chromium; brew install poppler"
}

make_shop_folder() {
    if [ ! -d "$shop" ]; then
        mkdir -p "$shop"
        chmod 700 "$shop"
    fi
    if [ -s "$shop/secret-key" ]; then return 0; fi
    say "making $shop/secret-key"
    (
        umask 077
        "$python" -c 'import secrets; print(secrets.token_urlsafe(48))' >"$shop/secret-key.new"
        mv "$shop/secret-key.new" "$shop/secret-key"
    )
}

build_fonts() {
    if [ ! -f "$shop/fonts/built-from" ]; then say "building the fonts (half a minute at most)"; fi
    quietly "$python" -m patterns.documents.fonts || stop "The fonts were not built."
}

# Static files are gathered again when one of them, a font or a package is newer than what was gathered.
collect_static() {
    gathered=$shop/static/staticfiles.json
    if [ -f "$gathered" ]; then
        newer=$(find studio/static "$shop/fonts/web" "$stamp" -newer "$gathered" -print)
        if [ -z "$newer" ]; then return 0; fi
    fi
    say "gathering the static files"
    quietly "$python" manage.py collectstatic --no-input --verbosity 0 || stop "The static files were not gathered."
}

make_venv
install_packages
install_libraries
if [ "$tests" = yes ]; then install_test_tools; fi
make_shop_folder
build_fonts
quietly "$python" manage.py migrate --no-input --verbosity 0 || stop "The database was not brought up to date."
collect_static
say "ready; the shop's data is in $shop"
