"""A walk through the shop: every page that links lead to, and what each of its forms answers, as words."""

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any
from urllib.parse import urljoin, urlsplit
from xml.etree.ElementTree import Element

import tinyhtml5
from django.db import transaction
from django.test import Client
from django.urls import Resolver404, resolve

# What is read as a line of its own; all else runs on within one.
BLOCKS = frozenset(
    (
        *("address", "article", "aside", "blockquote", "body", "br", "button", "caption", "dd", "details"),
        *(
            "div",
            "dl",
            "dt",
            "fieldset",
            "figcaption",
            "figure",
            "footer",
            "form",
            "g",
            "h1",
            "h2",
            "h3",
            "h4",
        ),
        *(
            "head",
            "header",
            "hr",
            "img",
            "input",
            "label",
            "legend",
            "li",
            "link",
            "main",
            "meta",
            "nav",
            "ol",
        ),
        *("option", "p", "pre", "section", "select", "summary", "svg", "table", "tbody", "td", "text"),
        *("textarea", "tfoot", "th", "thead", "title", "tr", "ul"),
    )
)
UNREAD = frozenset(("script", "style", "template", "textarea"))
# What is read though it is no text: to a screen reader, in a box, in a list of results.
READ_ATTRIBUTES = ("alt", "title", "aria-label", "placeholder", "aria-valuetext")
_META = ("description", "og:title", "og:description")
_PASSED = re.compile(r"^/(?:admin|static)/|/login/out/$|\.(?:pdf|csv|svg|dxf|jpg|webp|txt|xml)$|^/feed/")


# How many pages of one name are read: of each pattern, and of others.
MOST_OF_A_PATTERN, MOST_OF_OTHERS = 1, 5


@dataclass(frozen=True, slots=True)
class Form:
    """A form as it stands on a page: where it goes, how, and what is in its boxes."""

    address: str
    is_post: bool
    fields: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Page:
    address: str
    lines: tuple[str, ...]
    links: tuple[str, ...]
    forms: tuple[Form, ...]


def page_of(address: str, markup: str) -> Page:
    """Return what is read on a page, line by line, and where it leads."""
    root = tinyhtml5.parse(markup, namespace_html_elements=False)
    links = tuple(
        urljoin(address, to)
        for each in root.iter()
        for to in (each.get("href") if each.tag == "a" else None, each.get("hx-get"))
        if to and to[0] != "#"
    )
    forms = [(each.get("id"), _form(address, each)) for each in root.iter("form")]
    sent_elsewhere = tuple(
        replace(form, address=urljoin(address, each.get("formaction", "")))
        for each in root.iter("button")
        for name, form in forms
        if each.get("formaction") and name and name == each.get("form")
    )
    return Page(address, tuple(_lines(root)), links, (*(form for _, form in forms), *sent_elsewhere))


def _form(address: str, form: Element) -> Form:
    fields = []
    for each in form.iter():
        name = each.get("name")
        if not name or each.tag not in ("input", "textarea", "select", "button"):
            continue
        kind = each.get("type", "")
        if kind in ("checkbox", "radio") and "checked" not in each.attrib:
            continue
        if each.tag == "select":
            chosen = [option for option in each.iter("option") if "selected" in option.attrib]
            fields.append((name, (chosen or list(each.iter("option")))[0].get("value", "")))
        elif each.tag != "button" and kind not in ("submit", "file"):
            fields.append((name, each.get("value", "") or (each.text or "")))
    is_post = form.get("method", "get").lower() == "post"
    return Form(urljoin(address, form.get("action", "") or address), is_post, tuple(fields))


def _lines(root: Element) -> Iterator[str]:
    """Yield what is read, broken where blocks begin and end; white space as a browser makes it."""
    run: list[str] = []
    for part in (*_parts(root), None):
        if part is not None:
            run.append(part)
            continue
        line = re.sub(r"[ \t\n\r\f]*\n[ \t\n\r\f]*", " ", "".join(run)).strip()
        run.clear()
        if line:
            yield line


def _parts(element: Element) -> Iterator[str | None]:
    """Yield the texts in their order, and None where a line ends."""
    tag = str(element.tag).rpartition("}")[2]
    if not isinstance(element.tag, str) or tag in UNREAD:
        return
    if tag == "code":  # what is typed into a recipe, or by a program
        yield "…"
        return
    end = (None,) if tag in BLOCKS else ()
    yield from end
    for words in _unseen(element, tag):
        yield from (None, words, None)
    yield element.text or ""
    for child in element:
        yield from _parts(child)
        yield child.tail or ""
    yield from end


def _unseen(element: Element, tag: str) -> list[str]:
    """Return what an element says in its attributes."""
    names = READ_ATTRIBUTES
    if tag == "meta" and (element.get("name") or element.get("property")) in _META:
        names = ("content",)
    return [words for name in names if (words := element.get(name))]


def kind_of(address: str) -> str | None:
    """Return what kind of page it is: its name and the pattern's; None for no page of ours."""
    parts = urlsplit(address)
    if (parts.netloc and parts.netloc != "testserver") or _PASSED.search(parts.path):
        return None
    try:
        match = resolve(parts.path)
    except Resolver404:
        return None
    return f"{match.view_name} {match.kwargs.get('slug', '')}"


class Walk:
    """Walks from some addresses, which are all read, over all links; forms are sent and undone."""

    def __init__(self, client: Client, *, sends_forms: bool = True) -> None:
        self.client = client
        self.sends_forms = sends_forms
        self.kinds: Counter[str] = Counter()
        self.seen: set[str] = set()
        self.names: set[str] = set()

    def pages(self, *addresses: str) -> Iterator[Page]:
        waiting = [*reversed(addresses)]
        while waiting:
            address = waiting.pop()
            page = self._got(address, is_wanted=address in addresses)
            if page is None:
                continue
            yield page
            waiting += page.links
            for form in page.forms if self.sends_forms else ():
                yield from self._answers(form)

    def alone(self, *addresses: str) -> Iterator[Page]:
        """Yield just these pages, whatever their names, and what their forms answer; no link is followed."""
        for address in addresses:
            page = self._read(address, self.client.get(address))
            assert page is not None, f"{address} is no page of ours"
            yield page
            for form in page.forms:
                yield from self._answers(form)

    def _got(self, address: str, *, is_wanted: bool) -> Page | None:
        kind = kind_of(address)
        address = address.partition("#")[0]
        if kind is None or address in self.seen:
            return None
        most = MOST_OF_OTHERS if kind.endswith(" ") else MOST_OF_A_PATTERN
        if self.kinds[kind] >= most and not is_wanted:
            return None
        self.names.add(kind.split()[0])
        self.seen.add(address)
        self.kinds[kind] += 1
        return self._read(address, self.client.get(address))

    def _answers(self, form: Form) -> Iterator[Page]:
        """Yield what a form answers as it stands, emptied, and filled with nonsense; undo what it did."""
        parts = urlsplit(form.address)
        kind = kind_of(form.address)
        if kind is None:
            return
        self.names.add(kind.split()[0])
        filled = (
            dict(form.fields),
            dict.fromkeys((name for name, _ in form.fields), ""),
            dict.fromkeys((name for name, _ in form.fields), "seven ½"),
        )
        for number, fields in enumerate(filled):
            name = f"form {number} {kind.split()[0]} {sorted(fields)}"
            if self.kinds[name]:
                continue
            self.kinds[name] += 1
            kept = self.client.cookies.copy()
            with transaction.atomic():
                if form.is_post:
                    answer = self.client.post(form.address, fields)
                else:
                    answer = self.client.get(parts.path, fields)
                page = self._read(f"{form.address} (form {number})", answer)
                transaction.set_rollback(True)
            self.client.cookies = kept
            if page is not None:
                yield page

    def _read(self, address: str, answer: Any) -> Page | None:
        """Return the page that an answer is or leads to; None for no page of ours."""
        if answer.status_code in (301, 302, 303, 307, 308):
            address = urljoin(address, answer["Location"])
            kind = kind_of(address)
            if kind is None:
                return None
            self.names.add(kind.split()[0])
            return self._read(address, self.client.get(address))
        # 503 is what the shop says itself, in words, of what could not be made.
        if answer.status_code >= 500 and answer.status_code != 503:
            raise AssertionError(f"{address} answers {answer.status_code}")
        if not answer.get("Content-Type", "").startswith("text/html"):
            return None
        return page_of(address, answer.content.decode())
