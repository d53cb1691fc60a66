"""Reading what differs between machines from the environment, with a sentence for every bad value."""

import os
from pathlib import Path
from urllib.parse import urlsplit

from django.core.exceptions import ImproperlyConfigured, ValidationError
from django.core.validators import validate_email

PROJECT = Path(__file__).resolve().parent.parent


def env_text(name: str, default: str) -> str:
    """Return the variable without the spaces round it; the default where it is unset or empty."""
    return os.environ.get(name, "").strip() or default


def env_bool(name: str, default: bool) -> bool:
    """Return the variable as a truth: it is written True or False, and nothing else."""
    text = env_text(name, str(default))
    if text not in ("True", "False"):
        raise ImproperlyConfigured(f"{name} is '{text}'; write True or False.")
    return text == "True"


def env_int(name: str, default: int, *, least: int, most: int) -> int:
    """Return the variable as a whole number from least to most."""
    text = env_text(name, str(default))
    wanted = f"write a whole number from {least} to {most}."
    if not (text.isascii() and text.isdigit() and len(text) <= 18):
        raise ImproperlyConfigured(f"{name} is '{text}'; {wanted}")
    if not least <= int(text) <= most:
        raise ImproperlyConfigured(f"{name} is {text}; {wanted}")
    return int(text)


def env_words(name: str) -> list[str]:
    """Return the variable's words, parted by commas or spaces; none where it is unset."""
    return env_text(name, "").replace(",", " ").split()


def env_choice(name: str, default: str, choices: tuple[str, ...]) -> str:
    """Return the variable, which is one of these words."""
    text = env_text(name, default)
    if text not in choices:
        raise ImproperlyConfigured(f"{name} is '{text}'; write {', '.join(choices[:-1])} or {choices[-1]}.")
    return text


def env_mailbox(name: str) -> str:
    """Return an e-mail address without a name: “post@shop.example”; empty where it is unset."""
    text = env_text(name, "")
    try:
        if text:
            validate_email(text)
    except ValidationError:
        raise ImproperlyConfigured(f"{name} is '{text}'; write an address like post@shop.example.") from None
    return text


def env_password(name: str) -> str:
    """Return somebody else's secret, as short as they like: NAME itself, or the text of NAME_FILE's file."""
    file, text = env_text(f"{name}_FILE", ""), env_text(name, "")
    if text or not file:
        return text
    try:
        return Path(file).read_text(encoding="utf-8").strip()
    except (OSError, UnicodeDecodeError) as error:
        raise ImproperlyConfigured(f"{name} cannot be read from {file}: {error}") from error


def env_secret(name: str, default_file: Path) -> str:
    """Return a secret: NAME itself, or the text of the file that NAME_FILE (else the default) names.

    Raises ImproperlyConfigured where there is none, or it is too short to be one.
    """
    secret = env_text(name, "") or secret_in(Path(env_text(f"{name}_FILE", str(default_file))), name)
    if len(secret) < 32:
        raise ImproperlyConfigured(f"{name} has {len(secret)} characters; a secret needs 32 or more.")
    return secret


def secret_in(file: Path, name: str) -> str:
    """Return the text of a secret's file; a file that cannot be read stops the start."""
    try:
        return file.read_text(encoding="utf-8").strip()
    except FileNotFoundError:
        raise ImproperlyConfigured(
            f"There is no {name}: {file} does not exist. Run “sh studio/setup.sh”, which makes it, "
            f"or set {name} or {name}_FILE."
        ) from None
    except (OSError, UnicodeDecodeError) as error:
        raise ImproperlyConfigured(f"{name} cannot be read from {file}: {error}") from error


def env_origin(name: str, default: str) -> str:
    """Return an address as far as its host and port: “https://shop.example”."""
    typed = env_text(name, default)
    text = typed.removesuffix("/")
    wanted = f"{name} is '{typed}'; write an address like https://shop.example, with nothing after the host."
    try:
        parts = urlsplit(text)
        has_port_in_range = parts.port is None or parts.port > 0
    except ValueError:
        raise ImproperlyConfigured(wanted) from None
    is_origin = (
        parts.scheme in ("http", "https") and parts.hostname and text == f"{parts.scheme}://{parts.netloc}"
    )
    if not is_origin or "@" in parts.netloc or not has_port_in_range:
        raise ImproperlyConfigured(wanted)
    return text


def shop_data() -> Path:
    """Return the folder that holds all that is the shop's own: database, files, fonts, secret key.

    A relative path starts at the project, whatever folder a command is run from.
    """
    return PROJECT / env_text("SHOP_DATA", ".shop")
