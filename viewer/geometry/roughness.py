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


class Roughness(NamedTuple):
    """Means weighted by area, µm; 0 where no face counts."""

    ra_ideal_um: ByClass
    ra_estimate_um: ByClass


def estimated_ra_um(layer_mm: float, from_vertical_deg: float, supported: bool = False) -> float:
    """Ra in µm of the semi-empirical model for an inclination from vertical, 0° to 90°."""
    theta = np.radians(from_vertical_deg)
    return float(_estimate(layer_mm, np.sin(theta), np.cos(theta), 1.0 if supported else 0.0))


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
    sums = _sum_roughness(n_z, areas_mm2, face_classes, steps, touch_share, layer_mm)
    sums = np.vstack([sums, sums.sum(axis=0)])  # rows: unmarked, A, B, total
    area = np.maximum(sums[:, 0], 1e-300)
    return Roughness(_by_class(sums[:, 1] / area), _by_class(sums[:, 2] / area))


def _by_class(rows):
    unmarked, a, b, total = (float(x) for x in rows)
    return ByClass(a, b, unmarked, total)


@compiled
def _sum_roughness(n_z, areas, face_classes, steps, touch_share, layer):
    sums = np.zeros((3, 3))  # by class: area, area · ideal, area · estimate
    for f in range(len(n_z)):
        if not steps[f]:
            continue
        level = min(abs(np.float64(n_z[f])), 1.0)
        row = sums[face_classes[f]]
        row[0] += areas[f]
        row[1] += areas[f] * 250.0 * layer * level
        upright = np.sqrt(1.0 - level * level)
        row[2] += areas[f] * _estimate(layer, level, upright, touch_share[f])
    return sums


@compiled
def _estimate(layer, sin_theta, cos_theta, touch):
    if cos_theta >= _STEEP_COS:
        ra = 70.0 * layer / cos_theta
    else:
        share = (np.degrees(np.arctan2(sin_theta, cos_theta)) - 70.0) / 20.0
        ra = layer * ((1.0 - share) * 70.0 / _STEEP_COS + share * 117.6)
    return ra * (1.0 + (_SCARRED - 1.0) * touch)
