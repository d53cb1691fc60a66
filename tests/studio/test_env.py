from pathlib import Path

import pytest
from django.core.exceptions import ImproperlyConfigured

from studio.env import (
    PROJECT,
    env_bool,
    env_choice,
    env_int,
    env_mailbox,
    env_origin,
    env_password,
    env_secret,
    env_text,
    env_words,
    shop_data,
)

SECRET = "forty characters that nobody would guess"


def refusal(call, *args, **kwargs) -> str:
    with pytest.raises(ImproperlyConfigured) as refused:
        call(*args, **kwargs)
    return str(refused.value)


@pytest.mark.parametrize(("text", "value"), [("", "default"), ("  ", "default"), (" a b ", "a b")])
def test_text_is_trimmed_and_empty_is_unset(monkeypatch, text, value):
    monkeypatch.setenv("NAME", text)
    assert env_text("NAME", "default") == value


@pytest.mark.parametrize(("text", "value"), [("True", True), ("False", False), ("", True)])
def test_bool(monkeypatch, text, value):
    monkeypatch.setenv("DEBUG", text)
    assert env_bool("DEBUG", True) is value


@pytest.mark.parametrize("text", ["yes", "true", "1", "False!"])
def test_bool_written_otherwise_is_refused(monkeypatch, text):
    monkeypatch.setenv("DEBUG", text)
    assert refusal(env_bool, "DEBUG", False) == f"DEBUG is '{text}'; write True or False."


@pytest.mark.parametrize(("text", "value"), [("1", 1), (" 64 ", 64), ("", 2)])
def test_int(monkeypatch, text, value):
    monkeypatch.setenv("WORKERS", text)
    assert env_int("WORKERS", 2, least=1, most=64) == value


@pytest.mark.parametrize("text", ["two", "-1", "1.0", "²", "1" * 400])
def test_int_written_otherwise_is_refused(monkeypatch, text):
    monkeypatch.setenv("WORKERS", text)
    wanted = f"WORKERS is '{text}'; write a whole number from 1 to 64."
    assert refusal(env_int, "WORKERS", 2, least=1, most=64) == wanted


@pytest.mark.parametrize("text", ["0", "65"])
def test_int_out_of_range_is_refused(monkeypatch, text):
    monkeypatch.setenv("WORKERS", text)
    wanted = f"WORKERS is {text}; write a whole number from 1 to 64."
    assert refusal(env_int, "WORKERS", 2, least=1, most=64) == wanted


def test_words_are_parted_by_commas_or_spaces(monkeypatch):
    monkeypatch.setenv("PROXIES", " 127.0.0.1, ::1  10.0.0.2,")
    assert env_words("PROXIES") == ["127.0.0.1", "::1", "10.0.0.2"]


def test_secret_is_the_variable_before_any_file(monkeypatch, tmp_path):
    (tmp_path / "key").write_text("another secret of more than 32 characters")
    monkeypatch.setenv("KEY", SECRET)
    assert env_secret("KEY", tmp_path / "key") == SECRET


def test_secret_is_read_from_the_file_that_is_named(monkeypatch, tmp_path):
    (tmp_path / "key").write_text(SECRET + "\n")
    monkeypatch.setenv("KEY_FILE", str(tmp_path / "key"))
    assert env_secret("KEY", tmp_path / "none") == SECRET


def test_secret_without_a_file_says_what_makes_it(tmp_path):
    assert refusal(env_secret, "KEY", tmp_path / "none") == (
        f"There is no KEY: {tmp_path / 'none'} does not exist. Run “sh studio/setup.sh”, which makes it, "
        "or set KEY or KEY_FILE."
    )


def test_short_secret_is_refused_and_not_repeated(monkeypatch, tmp_path):
    monkeypatch.setenv("KEY", "short")
    message = refusal(env_secret, "KEY", tmp_path / "none")
    assert message == "KEY has 5 characters; a secret needs 32 or more."


def test_secret_in_a_folder_cannot_be_read(tmp_path):
    assert refusal(env_secret, "KEY", tmp_path).startswith(f"KEY cannot be read from {tmp_path}: ")


@pytest.mark.parametrize(
    "text",
    ["https://shop.example", "http://127.0.0.1:8000", "https://[::1]:8443", "https://shop.example:444/"],
)
def test_origin(monkeypatch, text):
    monkeypatch.setenv("SITE_URL", text)
    assert env_origin("SITE_URL", "") == text.rstrip("/")


@pytest.mark.parametrize(
    "text",
    [
        "shop.example",
        "ftp://shop.example",
        "https://",
        "https://shop.example/shop",
        "https://a@shop.example",
        "https://shop.example?x",
        "https://shop.example:x",
        "https://shop.example:99999",
        "https://[::1",
    ],
)
def test_origin_written_otherwise_is_refused(monkeypatch, text):
    monkeypatch.setenv("SITE_URL", text)
    assert refusal(env_origin, "SITE_URL", "") == (
        f"SITE_URL is '{text}'; write an address like https://shop.example, with nothing after the host."
    )


@pytest.mark.parametrize(
    ("text", "folder"),
    [("", PROJECT / ".shop"), ("data", PROJECT / "data"), ("/srv/shop", Path("/srv/shop"))],
)
def test_shop_data(monkeypatch, text, folder):
    monkeypatch.setenv("SHOP_DATA", text)
    assert shop_data() == folder


def test_choice(monkeypatch):
    assert env_choice("SECURITY", "tls", ("tls", "none")) == "tls"
    monkeypatch.setenv("SECURITY", "ssl")
    wanted = "SECURITY is 'ssl'; write starttls, tls or none."
    assert refusal(env_choice, "SECURITY", "tls", ("starttls", "tls", "none")) == wanted


def test_mailbox(monkeypatch):
    assert env_mailbox("FROM") == ""
    monkeypatch.setenv("FROM", " post@shop.example ")
    assert env_mailbox("FROM") == "post@shop.example"


@pytest.mark.parametrize("text", ["post", "Shop <post@shop.example>", "a@shop.example\nBcc: b@shop.example"])
def test_mailbox_that_is_none_is_refused(monkeypatch, text):
    monkeypatch.setenv("FROM", text)
    assert refusal(env_mailbox, "FROM") == f"FROM is '{text}'; write an address like post@shop.example."


def test_password_may_be_short_or_in_a_file(monkeypatch, tmp_path):
    assert env_password("PASSWORD") == ""
    (tmp_path / "password").write_text("four\n")
    monkeypatch.setenv("PASSWORD_FILE", str(tmp_path / "password"))
    assert env_password("PASSWORD") == "four"
    monkeypatch.setenv("PASSWORD", "short")
    assert env_password("PASSWORD") == "short"


def test_password_file_that_is_missing_stops_the_start(monkeypatch, tmp_path):
    monkeypatch.setenv("PASSWORD_FILE", str(tmp_path / "none"))
    said = refusal(env_password, "PASSWORD")
    assert said.startswith(f"PASSWORD cannot be read from {tmp_path}/none: ")
