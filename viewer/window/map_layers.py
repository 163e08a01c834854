"""What the direction map can be coloured by, as values of the even spread with their range."""

from dataclasses import dataclass

import numpy as np

from viewer.geometry.direction_discs import filled
from viewer.geometry.direction_table import MEASURES, Measure
from viewer.geometry.ranking import Ranking
from viewer.scene.palettes import direction_table
from viewer.window.height_chart import round_step
from viewer.window.quantities import number_text
from viewer.words import later, say

SCORE = Measure("score", later("Score"), "", more_is_better=True)
COLOURINGS = (SCORE, *MEASURES)
CONTOURS = 8  # at most so many lines between the least and the most
NOTHING_MM2 = 0.01  # of touch counts as none


@dataclass(frozen=True, eq=False)
class MapLayer:
    """One colouring.

    values : (spread,) float64, NaN where nothing is known at all; low, high : their range
    """

    measure: Measure
    values: np.ndarray
    low: float
    high: float

    @property
    def known(self) -> bool:
        """Whether there is anything to show."""
        return self.high > self.low or bool(np.isfinite(self.values).any())

    @property
    def title(self) -> str:
        """Name and unit."""
        unit = self.measure.unit
        name = say(self.measure.name)
        name = name[:1].upper() + name[1:]
        return f"{name}, {unit}" if unit else name

    def colours(self, values: np.ndarray) -> np.ndarray:
        """(k, 3) uint8: pale where a direction is best, dark where it is worst."""
        span = self.high - self.low
        share = (values - self.low) / span if span > 0 else np.full(len(values), 0.5)
        good = share if self.measure.more_is_better else 1.0 - share
        rows = np.nan_to_num(np.clip(good, 0.0, 1.0) * 255, nan=128).astype(np.uint8)
        return np.round(255 * direction_table()[rows]).astype(np.uint8)

    def contour_levels(self) -> list[float]:
        """Round values between the least and the most."""
        span = self.high - self.low
        if not span > 0:
            return []
        step = round_step(span / CONTOURS)
        first = int(np.floor(self.low / step)) + 1
        last = int(np.ceil(self.high / step)) - 1
        return [k * step for k in range(first, last + 1)]

    def value_text(self, value: float) -> str:
        """A value with its unit."""
        unit = self.measure.unit
        return f"{number_text(value)}{'' if unit in ('', '°') else ' '}{unit}"


def map_layer(key: str, ranking: Ranking) -> MapLayer:
    """The colouring by "score" or by a measure of the table."""
    measure = next(each for each in COLOURINGS if each.key == key)
    table = ranking.table
    spread = slice(0, table.spread)
    every = ranking.score if key == SCORE.key else table.column(key)
    values = filled(every[spread], table.directions[spread])
    known = values[np.isfinite(values)]
    low, high = (float(known.min()), float(known.max())) if len(known) else (0.0, 0.0)
    return MapLayer(measure, values, low, high)


def clean_directions(ranking: Ranking) -> np.ndarray:
    """(spread,) float64 1 where no support touches class A and 0 elsewhere, for its outline.

    All NaN where no face is class A or nothing is known yet.
    """
    table = ranking.table
    spread = slice(0, table.spread)
    touch = filled(table.column("touch_a_mm2")[spread], table.directions[spread])
    if not table.area_mm2.A or not np.isfinite(touch).all():
        return np.full(table.spread, np.nan)
    return (touch <= NOTHING_MM2).astype(np.float64)


def cut_shares(ranking: Ranking) -> dict[str, np.ndarray]:
    """Key of each limit that cuts something → (spread,) float64, 1 where it cuts, 0 elsewhere."""
    table = ranking.table
    spread = slice(0, table.spread)
    measured = table.complete[spread]
    if not measured.any():
        return {}
    found = {}
    for key, beyond in ranking.cut.beyond.items():
        shares = np.where(measured, beyond[spread].astype(np.float64), np.nan)
        if (shares > 0).any():
            found[key] = filled(shares, table.directions[spread])
    return found
