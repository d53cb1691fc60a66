import csv

import pytest

from orders.spreadsheets import cell, csv_lines


@pytest.mark.parametrize("first", ["=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠"])
def test_cell_that_a_spreadsheet_would_run_is_prefixed(first: str) -> None:
    assert cell(f"{first}HYPERLINK(1)") == f"'{first}HYPERLINK(1)"


def test_spaces_before_it_do_not_hide_it() -> None:
    assert cell("  =1") == "'  =1"


@pytest.mark.parametrize("value", ["Ada Example", "8 1⁄2", "ada@example.org", "", 7, -7])
def test_other_cells_stay_as_they_are(value: str | int) -> None:
    assert cell(value) == value


def test_what_is_written_reads_back() -> None:
    rows = [["a, b", 'he said "no"', "two\nlines", 3]]
    text = "".join(csv_lines(["one", "two", "three", "four"], rows))
    assert text.startswith("\ufeff")
    assert list(csv.reader(text.lstrip("\ufeff").splitlines(keepends=True)))[1] == [
        "a, b",
        'he said "no"',
        "two\nlines",
        "3",
    ]
