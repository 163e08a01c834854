"""Amounts on a client sheet, in the units that people use."""

from viewer.shop.ranges import Range
from viewer.words import say

_HOUR_S, _MINUTE_S = 3600.0, 60.0


def area_words(area_mm2: float) -> str:
    """A surface: in cm² from 1 cm² on."""
    if area_mm2 >= 100.0:
        return say("{area:,.1f} cm²", area=area_mm2 / 100.0)
    return say("{area:,.0f} mm²", area=area_mm2) if area_mm2 >= 1.0 else say("under 1 mm²")


def volume_words(volume_mm3: float) -> str:
    """A volume in cm³."""
    return say("{volume:,.1f} cm³", volume=volume_mm3 / 1000.0)


def time_words(seconds: float) -> str:
    """A time: minutes, then hours with halves, then whole hours."""
    if seconds < 90 * _MINUTE_S:
        return say("{minutes:.0f} min", minutes=seconds / _MINUTE_S)
    if seconds < 10 * _HOUR_S:
        return say("{hours:.1f} h", hours=seconds / _HOUR_S)
    return say("{hours:,.0f} h", hours=seconds / _HOUR_S)


def mass_words(grams: float) -> str:
    """A mass: grams, from 1 kg on kilograms."""
    if grams >= 1000.0:
        return say("{mass:,.2f} kg", mass=grams / 1000.0)
    return say("{mass:,.1f} g", mass=grams) if grams < 10.0 else say("{mass:,.0f} g", mass=grams)


def money_words(amount: float, currency: str) -> str:
    """Money with the name of its currency."""
    return say("{amount:,.2f} {currency}", amount=amount, currency=currency)


def range_words(amount: Range, words, *more: str) -> str:
    """What is likely, and in brackets from where to where; once where the three are alike."""
    low, likely, high = (words(value, *more) for value in amount)
    if low == high:
        return likely
    return say("about {likely} ({low} to {high})", likely=likely, low=low, high=high)
