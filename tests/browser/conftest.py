"""What the tests in a browser share: a page that complained of nothing at the end."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import ConsoleMessage, Page

# What htmx says of a part that was still on its way when the page was left.
_BROKEN_OFF = ("htmx:sendAbort", "htmx:afterRequest")


@pytest.fixture
def complaints(page: Page) -> Iterator[list[str]]:
    """What the browser complains of, a blocked style or a script that failed: nothing, by the end."""
    found: list[str] = []

    def hear(line: ConsoleMessage) -> None:
        if line.type in ("error", "warning") and not line.text.startswith(_BROKEN_OFF):
            found.append(line.text)

    page.on("console", hear)
    page.on("pageerror", lambda error: found.append(str(error)))
    yield found
    assert found == []
