"""Kernels that read words and decimal numbers from bytes, for all text formats.

Numbers come out correctly rounded without a slow path: up to 18 digits are collected in an
integer, and the power of ten is applied in double-double arithmetic (Dekker 1971), which leaves
an error far below half a unit in the last place.
"""

import numpy as np

from viewer.geometry.compiled import compiled

# What `read_number` found.
NUMBER, NOT_A_NUMBER, DECIMAL_COMMA, LINE_ENDS = 0, 1, 2, 3

_POWERS = 10.0 ** np.arange(23)  # all exact in float64
_MOST_DIGITS = 10**17


def word(text: str) -> np.ndarray:
    """A lower-case key word as bytes, the way `word_is` wants it."""
    return np.frombuffer(text.encode("ascii"), np.uint8)


@compiled
def is_line_end(byte):
    """Line feed or carriage return: both end a line, whatever system wrote the file."""
    return byte == 10 or byte == 13


@compiled
def is_blank(byte):
    """Space, tab, vertical tab, form feed or NUL."""
    return byte == 32 or byte == 9 or byte == 11 or byte == 12 or byte == 0


@compiled
def skip_blanks(data, pos, end):
    """First byte from `pos` on that is not blank; stays on the line."""
    while pos < end and is_blank(data[pos]):
        pos += 1
    return pos


@compiled
def skip_space(data, pos, end):
    """First byte from `pos` on that is neither blank nor a line end."""
    while pos < end and (is_blank(data[pos]) or is_line_end(data[pos])):
        pos += 1
    return pos


@compiled
def skip_word(data, pos, end):
    """First byte after the word that starts at `pos`."""
    while pos < end and not (is_blank(data[pos]) or is_line_end(data[pos])):
        pos += 1
    return pos


@compiled
def skip_line(data, pos, end):
    """First byte of the next line."""
    while pos < end and not is_line_end(data[pos]):
        pos += 1
    while pos < end and is_line_end(data[pos]):
        pos += 1
    return pos


@compiled
def word_is(data, start, stop, wanted):
    """Whether data[start:stop] is the key word `wanted`, in capitals or not."""
    if stop - start != len(wanted):
        return False
    for k in range(len(wanted)):
        byte = data[start + k]
        if 65 <= byte <= 90:
            byte += 32
        if byte != wanted[k]:
            return False
    return True


@compiled
def _product_error(a, b, product):
    """a·b − product exactly (Dekker's TwoProduct)."""
    a_high = a * 134217729.0
    a_high = a_high - (a_high - a)
    b_high = b * 134217729.0
    b_high = b_high - (b_high - b)
    a_low, b_low = a - a_high, b - b_high
    return ((a_high * b_high - product) + a_high * b_low + a_low * b_high) + a_low * b_low


@compiled
def _scaled(digits, exponent):
    """digits · 10^exponent, correctly rounded for all practical purposes."""
    high = np.float64(digits)
    low = np.float64(digits - np.int64(high))
    if digits == 0 or exponent < -400:
        return 0.0
    if exponent > 400:
        return np.inf
    while exponent != 0:
        step = min(22, abs(exponent))
        power = _POWERS[step]
        if exponent < 0:
            first = high / power
            product = first * power
            rest = ((high - product) - _product_error(first, power, product)) + low
            second = rest / power
            exponent += step
        else:
            first = high * power
            second = _product_error(high, power, first) + low * power
            exponent -= step
        high = first + second
        low = (first - high) + second
        if not np.isfinite(high):
            return high
    return high + low


@compiled
def read_number(data, pos, end):
    """The next number on this line: (value, first byte after it, what was found).

    The value is NaN unless NUMBER was found; "nan" and "inf" are NOT_A_NUMBER.
    """
    pos = skip_blanks(data, pos, end)
    if pos >= end or is_line_end(data[pos]):
        return np.nan, pos, LINE_ENDS
    stop = skip_word(data, pos, end)
    negative = data[pos] == 45
    if negative or data[pos] == 43:
        pos += 1
    digits, exponent, seen, after_point = np.int64(0), 0, 0, False
    while pos < stop:
        byte = data[pos]
        if 48 <= byte <= 57:
            seen += 1
            if digits < _MOST_DIGITS:
                digits = digits * 10 + (byte - 48)
                exponent -= after_point
            else:
                exponent += not after_point
        elif byte == 46 and not after_point:
            after_point = True
        else:
            break
        pos += 1
    if seen == 0:
        return np.nan, stop, NOT_A_NUMBER
    if pos < stop and data[pos] == 44:
        return np.nan, stop, DECIMAL_COMMA
    if pos < stop and (data[pos] | 32 == 101 or data[pos] | 32 == 100):  # e, E; Fortran's d, D
        pos += 1
        down = pos < stop and data[pos] == 45
        if pos < stop and (down or data[pos] == 43):
            pos += 1
        power, start = 0, pos
        while pos < stop and 48 <= data[pos] <= 57:
            power = min(power * 10 + (data[pos] - 48), 10000)
            pos += 1
        if pos == start:
            return np.nan, stop, NOT_A_NUMBER
        exponent += -power if down else power
    if pos != stop:
        return np.nan, stop, NOT_A_NUMBER
    value = _scaled(digits, exponent)
    return (-value if negative else value), stop, NUMBER
