"""What a form reads from a box for a number: the pure reader's own message becomes the form's, here only."""

from fractions import Fraction

from django import forms

from patterns.addresses import shortened
from patterns.drafting.lengths import LengthError, read_length, read_number
from patterns.drafting.units import Units
from patterns.money import read_amount


def is_empty(text: str | None) -> bool:
    return not (text or "").strip()


def typed_length(text: str | None, units: Units) -> Fraction:
    """Return the length in mm. Raises ValidationError with the reader's own sentence."""
    try:
        return read_length(text or "", units)
    except LengthError as error:
        raise forms.ValidationError(str(error)) from None


def typed_number(text: str | None) -> Fraction:
    """Return the bare number. Raises ValidationError with the reader's own sentence."""
    try:
        return read_number(text or "")
    except LengthError as error:
        raise forms.ValidationError(str(error)) from None


def typed_count(text: str | None, most: int, problem: str) -> int:
    """Return a whole number from 1 to most.

    problem: what any other number is: `is not a number of things`.
    Raises ValidationError.
    """
    number = typed_number(text)
    if number.denominator != 1 or not 1 <= number <= most:
        raise forms.ValidationError(
            f"“{shortened(text or '')}” {problem}. Write a whole number from 1 to {most:,}."
        )
    return int(number)


def typed_amount(text: str | None, currency: str) -> int:
    """Return an amount of money in minor units. Raises ValidationError with the reader's own sentence."""
    try:
        return read_amount(text or "", currency)
    except ValueError as error:
        raise forms.ValidationError(str(error)) from None
