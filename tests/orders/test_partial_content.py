import hashlib
from itertools import pairwise

import pytest
from django.test import RequestFactory
from hypothesis import given
from hypothesis import strategies as st

from orders.partial_content import OutsideError, file_response, part_of

CONTENT = bytes(range(100))
TAG = f'"{hashlib.sha256(CONTENT).hexdigest()}"'


def answer(method: str = "get", **headers: str):
    request = getattr(RequestFactory(), method)(
        "/", headers={k.replace("_", "-"): v for k, v in headers.items()}
    )
    return file_response(request, CONTENT, "book.pdf")


def test_whole_file():
    response = answer()
    assert (response.status_code, response.content) == (200, CONTENT)
    assert response.headers["Accept-Ranges"] == "bytes"
    assert response.headers["ETag"] == TAG
    assert response.headers["Content-Length"] == "100"
    assert response.headers["Content-Disposition"] == 'attachment; filename="book.pdf"'


@pytest.mark.parametrize(
    ("asked", "first", "last"),
    [
        ("bytes=0-0", 0, 0),
        ("bytes=0-99", 0, 99),
        ("bytes=90-", 90, 99),
        ("bytes=90-5000", 90, 99),
        ("bytes=-10", 90, 99),
        ("bytes=-5000", 0, 99),
        ("Bytes=7-8", 7, 8),
    ],
)
def test_one_range(asked, first, last):
    response = answer(Range=asked)
    assert (response.status_code, response.content) == (206, CONTENT[first : last + 1])
    assert response.headers["Content-Range"] == f"bytes {first}-{last}/100"
    assert response.headers["Content-Length"] == str(last - first + 1)


@pytest.mark.parametrize("asked", ["bytes=100-", "bytes=100-200", "bytes=-0", "bytes=999999999999999999-"])
def test_range_outside(asked):
    response = answer(Range=asked)
    assert (response.status_code, response.content) == (416, b"")
    assert response.headers["Content-Range"] == "bytes */100"
    assert "Content-Disposition" not in response.headers


@pytest.mark.parametrize(
    "asked",
    [
        *("", "bytes", "bytes=", "bytes=-", "bytes=5-4", "bytes=a-b", "bytes=1-2,5-6", "items=1-2"),
        *("bytes=+1-2", "bytes=1--2", "bytes=١-٢", f"bytes=0-{'9' * 400}", "bytes=1 - 2"),
    ],
)
def test_what_is_no_single_range_gives_the_whole_file(asked):
    response = answer(Range=asked)
    assert (response.status_code, response.content) == (200, CONTENT)


@pytest.mark.parametrize(
    ("tag", "status"),
    [(TAG, 206), ('"another"', 200), (f"W/{TAG}", 200), ("Wed, 25 Nov 2026 10:30:00 GMT", 200)],
)
def test_going_on_with_another_file_gives_the_whole_of_this_one(tag, status):
    assert answer(Range="bytes=90-", If_Range=tag).status_code == status


def test_range_of_a_file_that_changed_is_not_outside_it():
    assert answer(Range="bytes=5000-", If_Range='"another"').status_code == 200


def test_head_knows_no_ranges():
    response = answer("head", Range="bytes=0-9")
    assert (response.status_code, response.headers["Content-Length"]) == (200, "100")


@given(size=st.integers(1, 50), cuts=st.lists(st.integers(0, 49), max_size=5))
def test_parts_put_together_are_the_file(size, cuts):
    ends = sorted({cut for cut in cuts if 0 < cut < size} | {0, size})
    parts = [part_of(f"bytes={first}-{stop - 1}", size) for first, stop in pairwise(ends)]
    assert [at for part in parts for at in part] == list(range(size))


def test_nothing_of_nothing():
    with pytest.raises(OutsideError):
        part_of("bytes=0-", 0)
