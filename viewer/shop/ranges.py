"""Numbers of which three are known: low, likely, high."""

from typing import NamedTuple


class Range(NamedTuple):
    """A number that is estimated: nine of ten should lie between low and high."""

    low: float
    likely: float
    high: float

    @classmethod
    def of(cls, low: float, likely: float, high: float) -> "Range":
        """The three in order, whatever their order was."""
        return cls(min(low, likely), likely, max(likely, high))

    def times(self, factor: float) -> "Range":
        """Each of the three times a factor that is not negative."""
        return Range(*(value * factor for value in self))

    def plus(self, other: "Range") -> "Range":
        """Sums of lows, likelies and highs: both are off to the same side."""
        return Range(*(a + b for a, b in zip(self, other, strict=True)))
