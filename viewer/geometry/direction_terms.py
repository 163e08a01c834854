"""What the normals alone tell about very many build directions at once.

With n_z = normal · direction, t the layer height and w the road width:
  - overhang: area of faces with n_z below that of the support limit (see `overhang`); a face that
    would lie on the platform or inside another shell cannot be told by its normal and counts;
  - wide terraces: area with t·|n_z| / √(1 − n_z²) > w, which is |n_z| > w / √(w² + t²);
  - mean cusp: t·|n_z|, weighted by area (Dolenc & Mäkelä 1994).
Faces within 0.5° of level have no stairs and count for neither of the last two.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.overhang import steepest_overhang_n_z
from viewer.geometry.print_settings import PrintSettings

LEVEL_N_Z = float(np.cos(np.radians(0.5)))
_BLOCK = 2048  # faces whose normals and areas stay in the nearest cache (32 KiB)


class DirectionTerms(NamedTuple):
    """For every direction; columns by class number: unmarked, A, B (see `face_classes`).

    overhang_mm2, wide_terrace_mm2 : (d, 3) float64
    cusp_mean_mm : (d,) float64, 0 where every face is level
    """

    overhang_mm2: np.ndarray
    wide_terrace_mm2: np.ndarray
    cusp_mean_mm: np.ndarray


def direction_terms(
    directions: np.ndarray,
    normals: np.ndarray,
    areas_mm2: np.ndarray,
    face_classes: np.ndarray,
    settings: PrintSettings,
) -> DirectionTerms:
    """Overhang, wide terraces and mean cusp of each build direction.

    directions : (d, 3) unit vectors; normals : (m, 3) float32, unit, outward
    areas_mm2 : (m,); face_classes : (m,) uint8
    """
    road, layer = settings.road_mm, settings.layer_mm
    limits = np.array(
        [
            steepest_overhang_n_z(settings.support_limit_deg),
            road / np.hypot(road, layer),
            LEVEL_N_Z,
        ],
        np.float32,
    )
    up = np.ascontiguousarray(directions, np.float32)
    sums = np.zeros((3, len(up), 4))
    for number in range(3):
        chosen = face_classes == number
        x, y, z = (np.ascontiguousarray(normals[chosen, k], np.float32) for k in range(3))
        _sum_terms(x, y, z, areas_mm2[chosen].astype(np.float32), up, limits, sums[number])
    stepped = sums[:, :, 2].sum(axis=0)
    cusp = layer * sums[:, :, 3].sum(axis=0) / np.maximum(stepped, 1e-300)
    return DirectionTerms(sums[:, :, 0].T.copy(), sums[:, :, 1].T.copy(), cusp)


@compiled
def _sum_terms(x, y, z, areas, directions, limits, sums):
    """Adds (overhang, wide terraces, stepped area, stepped area · |n_z|) to each row of `sums`."""
    for start in range(0, len(x), _BLOCK):
        stop = min(start + _BLOCK, len(x))
        # Slices from 0 let the compiler use vector instructions, offsets do not.
        bx, by, bz, area = x[start:stop], y[start:stop], z[start:stop], areas[start:stop]
        for d in range(len(directions)):
            terms = _terms_of_block(bx, by, bz, area, directions[d], limits)
            for k in range(4):
                sums[d, k] += terms[k]


# Free order of additions is what vector instructions need; single precision lasts for one block.
# One direction at a time keeps its four sums, three coordinates and three limits in registers.
@compiled(fastmath={"reassoc", "contract", "nsz"})
def _terms_of_block(x, y, z, areas, up, limits):
    zero = np.float32(0)
    overhang, wide, stepped, raised = zero, zero, zero, zero
    ux, uy, uz = up[0], up[1], up[2]
    steepest, widest, level = limits[0], limits[1], limits[2]
    for i in range(len(x)):
        area = areas[i]
        n_z = x[i] * ux + y[i] * uy + z[i] * uz
        size = abs(n_z)
        overhang += area if n_z < steepest else zero
        steps = area if size < level else zero
        wide += steps if size > widest else zero
        stepped += steps
        raised += steps * size
    return overhang, wide, stepped, raised
