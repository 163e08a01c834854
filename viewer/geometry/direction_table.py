"""The table of a direction search: a row for each build direction, a column for each measure."""

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np

from viewer.geometry.face_classes import ByClass
from viewer.geometry.mesh import frozen


class Measure(NamedTuple):
    """One column: its key, what it is called, its unit, and whether more of it is better."""

    key: str
    name: str
    unit: str
    more_is_better: bool = False


MEASURES = (
    Measure("touch_a_mm2", "touch on class A", "mm²"),
    Measure("touch_b_mm2", "touch on class B", "mm²"),
    Measure("touch_mm2", "touch", "mm²"),
    Measure("landing_a_mm2", "landing on class A", "mm²"),
    Measure("landing_b_mm2", "landing on class B", "mm²"),
    Measure("landing_part_mm2", "landing on the part", "mm²"),
    Measure("graze_a_mm2", "graze on class A", "mm²"),
    Measure("graze_b_mm2", "graze on class B", "mm²"),
    Measure("graze_mm2", "graze", "mm²"),
    Measure("terrace_a_mm2", "terraces wider than a road on class A", "mm²"),
    Measure("terrace_b_mm2", "terraces wider than a road on class B", "mm²"),
    Measure("terrace_mm2", "terraces wider than a road", "mm²"),
    Measure("cusp_a_mm", "mean cusp on class A", "mm"),
    Measure("cusp_b_mm", "mean cusp on class B", "mm"),
    Measure("platform_a_mm2", "class A on the platform", "mm²"),
    Measure("platform_b_mm2", "class B on the platform", "mm²"),
    Measure("platform_mm2", "on the platform", "mm²"),
    Measure("support_volume_mm3", "support volume", "mm³"),
    Measure("unreachable_mm3", "unreachable support", "mm³"),
    Measure("supported_mm", "height with supports", "mm"),
    Measure("height_mm", "height", "mm"),
    Measure("tip_angle_deg", "tip angle of the part alone", "°", True),
    Measure("tip_supported_deg", "tip angle with supports", "°", True),
    Measure("over_mm", "too large for the platform by", "mm"),
    Measure("time_min", "print time", "min"),
    Measure("material_g", "material", "g"),
    Measure("cost", "cost", ""),
)
COLUMN = {measure.key: i for i, measure in enumerate(MEASURES)}
# One standard error of each of these stands behind the measures.
ERROR_COLUMN = {
    key: len(MEASURES) + i for i, key in enumerate(("graze_a_mm2", "graze_b_mm2", "graze_mm2"))
}
COLUMNS = len(MEASURES) + len(ERROR_COLUMN)


@dataclass(frozen=True, eq=False)
class DirectionTable:
    """Measures of d build directions; rows keep their place as a search goes on.

    directions : (d, 3) float64, unit vectors in part coordinates that point up
    values : (d, k) float64, columns as in MEASURES, then ERROR_COLUMN; NaN where not measured (yet)
    flat_standing : (d,) bool, the part then stands on a flat face of its hull without tipping
    checked : (d,) bool, measured by the full tier
    spread : the first so many rows are the even spread, for a map
    area_mm2 : of the whole part by class; layer_mm : layer height
    fraction : how much of the search is done, 0 to 1
    """

    directions: np.ndarray
    values: np.ndarray
    flat_standing: np.ndarray
    checked: np.ndarray
    spread: int
    area_mm2: ByClass
    layer_mm: float
    fraction: float = 0.0

    def __len__(self) -> int:
        return len(self.directions)

    def column(self, key: str) -> np.ndarray:
        """(d,) float64: one measure of all directions, by its key in MEASURES."""
        return self.values[:, COLUMN[key]]

    def row(self, index: int) -> dict[str, float]:
        """What is known about one direction: key → number."""
        return self._known(index, COLUMN)

    def error(self, index: int) -> dict[str, float]:
        """One standard error of what is sampled in that row: key → number."""
        return self._known(index, ERROR_COLUMN)

    def _known(self, index: int, columns: dict[str, int]) -> dict[str, float]:
        values = self.values[index]
        return {key: float(values[i]) for key, i in columns.items() if np.isfinite(values[i])}

    @cached_property
    def complete(self) -> np.ndarray:
        """(d,) bool: supports are measured too, not only what normals tell."""
        return np.isfinite(self.column("support_volume_mm3"))

    def nearest(self, up: np.ndarray) -> int:
        """The row whose direction is nearest to the unit vector `up`."""
        return int(np.argmax(self.directions @ np.asarray(up, np.float64)))


def frozen_table(table: DirectionTable, fraction: float) -> DirectionTable:
    """A copy that no longer changes, for whoever looks at it while the search goes on."""
    return DirectionTable(
        frozen(table.directions.copy()),
        frozen(table.values.copy()),
        frozen(table.flat_standing.copy()),
        frozen(table.checked.copy()),
        table.spread,
        table.area_mm2,
        table.layer_mm,
        fraction,
    )
