"""Every recipe's book once, and all that can be chosen in pairs: no fault on any page.

The command `proofs` makes all books in every way, and pictures of them to look at.
"""

import pytest

from patterns.documents.errors import DocumentError
from patterns.documents.proofs import proof as room
from patterns.documents.proofs.cases import Case, few_cases
from patterns.documents.proofs.proof import proof
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs

INCHES, CENTIMETRES = Units.INCHES, Units.CENTIMETRES
CASES = [
    *few_cases(slugs()),
    # Its last mark leaves most of a page for the first steps.
    Case("window-pouch", "largest", INCHES, "letter", "last"),
    Case("window-pouch", "largest", INCHES, "a4", "last", "short"),
    Case("packable-tote", "default", CENTIMETRES, "letter", "usual", "short"),
    Case("fold-flat-basket", "smallest", INCHES, "letter", "first", "short"),
    Case("boxed-tote", "largest", CENTIMETRES, "a4", "last", "plain"),
    Case("zip-pouch", "default", INCHES, "letter", "usual", "plain"),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_no_page_has_a_fault(case):
    found = proof(case, read_starter(case.recipe))
    assert [str(fault) for fault in found.faults] == []
    assert found.document.startswith(b"%PDF-")


def test_what_cannot_be_made_is_a_fault(monkeypatch):
    def complain(*_, **__):
        raise DocumentError("The renderer complained: no such property.")

    monkeypatch.setattr(room, "body", complain)
    found = proof(Case("zip-pouch", "default", INCHES, "a4", "usual"), read_starter("zip-pouch"))
    assert [fault.name for fault in found.faults] == ["not-made"]
    assert not found.document
