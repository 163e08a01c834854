"""Arithmetic roughness Ra that a layered surface may be expected to have: two models, by class.

Ideal: Ra = t·|n_z| / 4 of a sharp staircase (a triangular profile; CALC), over the faces that step.

Estimate: semi-empirical for material extrusion, θ the inclination from vertical (Pandey, Reddy &
Dhande 2003, J Mater Process Technol 132:323; Thrimurthulu, Pandey & Reddy 2004, Int J Mach Tools
Manuf 44:585; both from memory): Ra[µm] = 70·t / cos θ up to θ = 70°, 117.6·t at 90°, linear
between; 1.2 times that where a support bears. cos θ is the share of the face's normal that is
level, so θ = 90° is a floor. A flat face inside one layer has no stairs and counts for neither.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_classes import ByClass

_STEEP_COS = float(np.cos(np.radians(70.0)))
_SCARRED = 1.2


def _of_one_mm(level: float | np.ndarray) -> np.ndarray:
    """The estimate for a layer of 1 mm; `level` is |n_z| = sin θ."""
    theta = np.degrees(np.arcsin(level))
    steep = 70.0 / np.cos(np.radians(np.minimum(theta, 70.0)))
    flat = np.interp(theta, [70.0, 90.0], [70.0 / _STEEP_COS, 117.6])
    return np.where(theta <= 70.0, steep, flat)


_TABLE = _of_one_mm(np.linspace(0.0, 1.0, 8193))  # read between its entries: good to 0.01 %


class Roughness(NamedTuple):
    """Means weighted by area, µm; 0 where no face counts."""

    ra_ideal_um: ByClass
    ra_estimate_um: ByClass


def estimated_ra_um(layer_mm: float, from_vertical_deg: float, supported: bool = False) -> float:
    """Ra in µm of the semi-empirical model for an inclination from vertical, 0° to 90°."""
    level = np.sin(np.radians(from_vertical_deg))
    return float(_of_one_mm(level)) * layer_mm * (_SCARRED if supported else 1.0)


def measure_roughness(
    n_z: np.ndarray,
    areas_mm2: np.ndarray,
    face_classes: np.ndarray,
    steps: np.ndarray,
    touch_share: np.ndarray,
    layer_mm: float,
) -> Roughness:
    """Both models over a posed part.

    n_z : (m,) float32, normal · build direction; areas_mm2 : (m,) float64
    face_classes : (m,) uint8; steps : (m,) bool, faces of terrace fields (see `terraces`)
    touch_share : (m,) float32, share of each face that bears on a support
    """
    sums = _sum_roughness(n_z, areas_mm2, face_classes, steps, touch_share, _TABLE)
    sums[:, 1:] *= layer_mm  # both models grow with the layer height
    sums = np.vstack([sums, sums.sum(axis=0)])  # rows: unmarked, A, B, total
    area = np.maximum(sums[:, 0], 1e-300)
    return Roughness(_by_class(sums[:, 1] / area), _by_class(sums[:, 2] / area))


def _by_class(rows):
    unmarked, a, b, total = (float(x) for x in rows)
    return ByClass(a, b, unmarked, total)


@compiled
def _sum_roughness(n_z, areas, face_classes, steps, touch_share, table):
    sums = np.zeros((3, 3))  # by class: area, area · ideal, area · estimate
    for f in range(len(n_z)):
        if not steps[f]:
            continue
        level = min(abs(np.float64(n_z[f])), 1.0)
        row = sums[face_classes[f]]
        row[0] += areas[f]
        row[1] += areas[f] * 250.0 * level
        at = level * (len(table) - 1)
        k = min(int(at), len(table) - 2)
        ra = table[k] + (at - k) * (table[k + 1] - table[k])
        row[2] += areas[f] * ra * (1.0 + (_SCARRED - 1.0) * touch_share[f])
    return sums
