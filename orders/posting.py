"""Sending the letters that are due: each by whoever takes it first, never by two."""

from datetime import datetime
from email.errors import MessageError
from email.headerregistry import Address
from smtplib import SMTPDataError, SMTPRecipientsRefused, SMTPResponseException, SMTPSenderRefused

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.db import transaction

from orders.further_links import answer_asked, with_links
from orders.models import Letter
from studio.models import Shop

# So many letters in one go. With the mail server at its slowest that stays within a letter's lease.
MOST_AT_ONCE = 20
# The server is there and refuses this one letter; after anything else the others need not be tried either.
ABOUT_THE_LETTER = (SMTPDataError, SMTPRecipientsRefused, SMTPSenderRefused, MessageError, ValueError)


def send_due(now: datetime) -> int:
    """Answer who asked for links and send what is due; return how much of it was done.

    A bounded batch. What fails is tried again after growing pauses (`orders.models.letters`). A sender that
    is stopped between the mail server's word and ours leaves the letter to be sent once more an hour later,
    with the same Message-ID.
    """
    return answer_asked(now) + _send_letters(now)


def _send_letters(now: datetime) -> int:
    sent = 0
    for letter in Letter.objects.due(now)[:MOST_AT_ONCE]:
        if not letter.claim(now):
            continue
        try:
            # The new links are in the database before anybody can follow one; no connection is open yet.
            message = _message(letter, now)
            message.send()
        except (OSError, MessageError, ValueError) as error:  # every error of smtplib is an OSError
            letter.keep_failure(_words(error), now)
            if not isinstance(error, ABOUT_THE_LETTER):
                break
        else:
            letter.keep_sent(now)
            sent += 1
    return sent


def _words(error: Exception) -> str:
    """Return what the mail server said, or what kept us from hearing it."""
    if isinstance(error, SMTPRecipientsRefused):
        return "; ".join(_reply(code, said) for code, said in error.recipients.values())
    if isinstance(error, SMTPResponseException):
        return _reply(error.smtp_code, error.smtp_error)
    return f"{type(error).__name__}: {error}"


def _reply(code: int, said: bytes | str) -> str:
    text = said.decode("utf-8", "replace") if isinstance(said, bytes) else said
    return " ".join(f"{code} {text}".split())


def _message(letter: Letter, now: datetime) -> EmailMultiAlternatives:
    shop = Shop.objects.current()
    with transaction.atomic():
        text, html = with_links(letter, now)
    message = EmailMultiAlternatives(
        subject=letter.subject,
        body=text,
        from_email=_sender(shop),
        to=[letter.to],
        reply_to=[shop.email] if shop.email else None,
        headers={
            "Message-ID": f"<letter-{letter.pk}-{letter.created_at:%Y%m%d%H%M%S%f}@{_domain()}>",
            # Holiday replies and other machines leave it alone (RFC 3834).
            "Auto-Submitted": "auto-generated",
        },
    )
    message.attach_alternative(html, "text/html")
    return message


def _sender(shop: Shop) -> str:
    """Return the shop's name with the address that letters come from."""
    address = settings.EMAIL_FROM or shop.email or f"shop@{_domain()}"
    return str(Address(display_name=" ".join(str(shop).split()), addr_spec=address))


def _domain() -> str:
    return settings.SITE_HOST.strip("[]") if ":" not in settings.SITE_HOST else "localhost"
