import ast
import os
import re
import runpy
import subprocess
import sys

import pytest

from studio.env import PROJECT

READERS = {
    "env_bool",
    "env_choice",
    "env_int",
    "env_mailbox",
    "env_origin",
    "env_password",
    "env_secret",
    "env_text",
    "env_words",
}


@pytest.fixture
def read_settings(monkeypatch):
    """Read the settings afresh with these variables set."""

    def read(**variables: str) -> dict:
        for name, text in variables.items():
            monkeypatch.setenv(name, text)
        return runpy.run_path(str(PROJECT / "studio" / "settings.py"))

    return read


def names_read() -> set[str]:
    """Every variable that the settings read, with the NAME_FILE of each secret."""
    names = set()
    for file in ("settings.py", "env.py"):
        for node in ast.walk(ast.parse((PROJECT / "studio" / file).read_text())):
            match node:
                case ast.Call(func=ast.Name(id), args=[ast.Constant(str(name)), *_]) if id in READERS:
                    names |= {name, f"{name}_FILE"} if id in ("env_secret", "env_password") else {name}
    return names


def test_readme_lists_every_variable_and_no_other():
    readme = (PROJECT / "README.md").read_text()
    assert set(re.findall(r"^\| `([A-Z_]+)` \|", readme, re.MULTILINE)) == names_read()


def test_tests_take_no_variable_from_the_machine():
    source = (PROJECT / "tests" / "environment.py").read_text()
    assert names_read() <= set(re.findall(r'"([A-Z_]+)"', source))


def test_unset_is_safe(read_settings):
    settings = read_settings()
    assert settings["DEBUG"] is False
    assert settings["ALLOWED_HOSTS"] == ["127.0.0.1", "127.0.0.1", "localhost", "[::1]"]
    assert settings["TRUSTED_PROXIES"] == []
    assert settings["SECURE_SSL_REDIRECT"] is False


def test_plain_http_on_this_machine_keeps_its_cookies(read_settings):
    settings = read_settings()
    assert (settings["SESSION_COOKIE_NAME"], settings["SESSION_COOKIE_SECURE"]) == ("session", False)
    assert (settings["CSRF_COOKIE_NAME"], settings["CSRF_COOKIE_SECURE"]) == ("csrf", False)


def test_https_binds_the_cookies_to_the_host(read_settings):
    settings = read_settings(SITE_URL="https://shop.example")
    assert (settings["SESSION_COOKIE_NAME"], settings["SESSION_COOKIE_SECURE"]) == ("__Host-session", True)
    assert (settings["CSRF_COOKIE_NAME"], settings["CSRF_COOKIE_SECURE"]) == ("__Host-csrf", True)
    assert settings["SECURE_SSL_REDIRECT"] is True
    assert settings["SECURE_HSTS_SECONDS"] == 31_536_000
    assert "shop.example" in settings["ALLOWED_HOSTS"]


def test_ipv6_host_is_written_as_browsers_send_it(read_settings):
    assert read_settings(SITE_URL="https://[2001:db8::1]:8443")["ALLOWED_HOSTS"][0] == "[2001:db8::1]"


def test_cards_let_a_form_lead_on_to_the_provider_alone(read_settings):
    def led_to(settings) -> list[str]:
        return settings["CONTENT_SECURITY_POLICY"]["DIRECTIVES"]["form-action"]

    assert led_to(read_settings()) == ["'self'"]
    settings = read_settings(STRIPE_SECRET_KEY="sk_test_1", STRIPE_WEBHOOK_SECRETS="whsec_1, whsec_2")
    assert led_to(settings) == ["'self'", "https://checkout.stripe.com"]
    assert settings["STRIPE_WEBHOOK_SECRETS"] == ["whsec_1", "whsec_2"]


def manage(*args: str, **variables: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, str(PROJECT / "manage.py"), *args]
    environment = {**os.environ, **variables}
    del environment["DJANGO_ALLOW_ASYNC_UNSAFE"]  # for the browser tests, never for a shop
    return subprocess.run(command, env=environment, capture_output=True, text=True, timeout=60, check=False)


def test_bad_value_stops_the_start_with_one_sentence():
    ended = manage("check", DEBUG="yes")
    assert (ended.returncode, ended.stdout) == (1, "")
    assert ended.stderr == "DEBUG is 'yes'; write True or False.\n"


def test_missing_secret_key_stops_the_start_with_the_command_that_makes_it(tmp_path):
    ended = manage("check", SECRET_KEY="", SHOP_DATA=str(tmp_path))
    assert (ended.returncode, ended.stdout) == (1, "")
    assert ended.stderr == (
        f"There is no SECRET_KEY: {tmp_path}/secret-key does not exist. Run “sh studio/setup.sh”, "
        "which makes it, or set SECRET_KEY or SECRET_KEY_FILE.\n"
    )


def test_without_a_mail_server_letters_are_kept_as_files(read_settings):
    settings = read_settings()
    assert settings["EMAIL_BACKEND"] == "django.core.mail.backends.filebased.EmailBackend"
    assert settings["EMAIL_FILE_PATH"] == settings["SHOP_DATA"] / "letters"


@pytest.mark.parametrize(
    ("security", "port", "starttls", "tls"),
    [("", 587, True, False), ("tls", 465, False, True), ("none", 25, False, False)],
)
def test_mail_server(read_settings, security, port, starttls, tls):
    settings = read_settings(EMAIL_HOST="mail.example", EMAIL_SECURITY=security)
    assert settings["EMAIL_BACKEND"] == "django.core.mail.backends.smtp.EmailBackend"
    read = (settings["EMAIL_PORT"], settings["EMAIL_USE_TLS"], settings["EMAIL_USE_SSL"])
    assert read == (port, starttls, tls)


def test_deploy_check_is_clean_behind_a_proxy():
    secret = "".join(chr(code) for code in range(48, 123) if chr(code).isalnum())
    ended = manage(
        "check",
        "--deploy",
        "--fail-level=WARNING",
        SITE_URL="https://shop.example",
        TRUSTED_PROXIES="127.0.0.1",
        EMAIL_HOST="mail.example",
        SECRET_KEY=secret,
    )
    assert (ended.stderr, ended.returncode) == ("", 0)
