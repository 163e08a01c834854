"""Decimal numbers from bytes, against Python's own correctly rounded float()."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.files.number_text import (
    DECIMAL_COMMA,
    LINE_ENDS,
    NOT_A_NUMBER,
    NUMBER,
    read_number,
)


def read(text: str):
    data = np.frombuffer(text.encode(), np.uint8)
    return read_number(data, 0, len(data))


@given(st.floats(-1e12, 1e12), st.sampled_from(["{!r}", "{:.17e}", "{:.6f}", "{:E}", "{:+.3g}"]))
def test_it_reads_what_float_reads(number, style):
    text = style.format(number)
    value, stop, found = read(text)
    assert (value, stop, found) == (float(text), len(text), NUMBER)


@given(st.integers(0, 10**25), st.integers(-40, 40))
def test_long_numbers_lose_at_most_the_last_bit(digits, exponent):
    text = f"{digits}e{exponent}"
    assert read(text)[0] == pytest.approx(float(text), rel=2.3e-16, abs=0)


@pytest.mark.parametrize(
    ("text", "value"),
    [("2.", 2.0), (".5", 0.5), ("-0.0", 0.0), ("1D3", 1000.0), ("007", 7.0), ("1e-500", 0.0)],
)
def test_odd_spellings_of_numbers(text, value):
    assert read(text)[::2] == (value, NUMBER)


@pytest.mark.parametrize("text", ["nan", "inf", "-inf", "3.1+e2", "1e", "-", ".", "0x10", "1.2.3"])
def test_what_is_no_number_says_so(text):
    value, stop, found = read(text)
    assert np.isnan(value)
    assert (stop, found) == (len(text), NOT_A_NUMBER)


def test_a_decimal_comma_is_known_as_such():
    assert read("-5,25")[2] == DECIMAL_COMMA


def test_it_never_crosses_the_end_of_the_line():
    assert read("  \t\r\n7")[1:] == (3, LINE_ENDS)
