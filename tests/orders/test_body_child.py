import subprocess
import sys
from collections.abc import Callable

import pytest

from orders import body_child
from orders.body_child import BodyError, made_apart
from orders.cloth import kept_layouts
from orders.issuing import made_here
from orders.makers import MAKERS
from orders.models import IssuedDocument
from orders.placing import Placed
from studio.env import PROJECT

Maker = Callable[..., Placed]


def test_every_kind_has_its_maker() -> None:
    assert set(MAKERS) == set(IssuedDocument.Kind.values)


def test_body_is_the_same_as_made_here(make_order: Maker) -> None:
    line = make_order().order.lines.get()
    asked = line.sized, kept_layouts(line), "book", "a4"
    assert made_apart(*asked) == made_here(*asked)


def test_failure_is_a_sentence_and_nothing_is_printed() -> None:
    with pytest.raises(BodyError, match=r"^KeyError: 'format'$|^\w+Error: "):
        made_apart({}, {}, "book", "a4")


def test_child_that_takes_too_long_is_ended(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(body_child, "PATIENCE", 0.01)
    with pytest.raises(BodyError, match="took longer"):
        made_apart({}, {}, "book", "a4")


def test_child_knows_neither_models_nor_settings() -> None:
    program = (
        "import orders.body_child, sys; from django.conf import settings;"
        "raise SystemExit(settings.configured or 'orders.models' in sys.modules)"
    )
    subprocess.run([sys.executable, "-c", program], cwd=PROJECT, check=True, timeout=60)
