"""What the normals alone tell about very many build directions at once.

With n_z = normal · direction, t the layer height and w the road width:
  - overhang: area of faces with n_z below that of the support limit (see `overhang`), and their
    plan area Σ area·|n_z|; a face that would lie on the platform cannot be told by its normal and
    counts, as does one inside another shell unless the areas given leave it out;
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
_BLOCK = 2048  # faces that single precision is summed over at a time
_ACROSS = 12  # squares along each side of the cube of normals
_SLACK = 1e-6  # of n_z, for rounding in single precision


class DirectionTerms(NamedTuple):
    """For every direction; columns by class number: unmarked, A, B (see `face_classes`).

    overhang_mm2, overhang_plan_mm2, wide_terrace_mm2 : (d, 3) float64, plan areas seen from above
    cusp_mm : (d, 3) float64, mean over the faces with stairs, 0 where there are none
    cusp_mean_mm : (d,) float64, over all classes
    """

    overhang_mm2: np.ndarray
    overhang_plan_mm2: np.ndarray
    wide_terrace_mm2: np.ndarray
    cusp_mm: np.ndarray
    cusp_mean_mm: np.ndarray


class FacesByNormal(NamedTuple):
    """The faces of one class in the order of their normals' cells; see `faces_by_normal`.

    x, y, z, areas_mm2 : float32, one row each; starts : where each cell starts
    axes, openings : cone around the normals of each cell; whole : Σ area · normal, Σ area of each
    """

    x: np.ndarray
    y: np.ndarray
    z: np.ndarray
    areas_mm2: np.ndarray
    starts: np.ndarray
    axes: np.ndarray
    openings: np.ndarray
    whole: np.ndarray


def faces_by_normal(
    normals: np.ndarray, areas_mm2: np.ndarray, face_classes: np.ndarray
) -> tuple[FacesByNormal, ...]:
    """Faces made ready for `terms_of_directions`, for each class number.

    normals : (m, 3) float32, unit, outward; areas_mm2 : (m,); face_classes : (m,) uint8
    """
    made = []
    for number in range(3):
        chosen = _sort_by_cell(normals, areas_mm2, face_classes, number)
        made.append(FacesByNormal(*chosen, *_measure_cones(*chosen)))
    return tuple(made)


def terms_of_directions(
    directions: np.ndarray, faces: tuple[FacesByNormal, ...], settings: PrintSettings
) -> DirectionTerms:
    """Overhang, wide terraces and cusps of each of (d, 3) unit build directions."""
    road, layer = settings.shown_terrace_mm, settings.layer_mm
    limits = np.array(
        [
            steepest_overhang_n_z(settings.support_limit_deg),
            road / np.hypot(road, layer),
            LEVEL_N_Z,
        ],
        np.float32,
    )
    up = np.ascontiguousarray(directions, np.float32)
    sums = np.zeros((3, len(up), 5))
    for number, of_class in enumerate(faces):
        _sum_terms(*of_class, up, limits, sums[number])
    overhang, plan, wide, stepped, raised = sums.transpose(2, 1, 0)
    cusps = layer * raised / np.maximum(stepped, 1e-300)
    mean = layer * raised.sum(axis=1) / np.maximum(stepped.sum(axis=1), 1e-300)
    return DirectionTerms(overhang.copy(), plan.copy(), wide.copy(), cusps, mean)


def direction_terms(
    directions: np.ndarray,
    normals: np.ndarray,
    areas_mm2: np.ndarray,
    face_classes: np.ndarray,
    settings: PrintSettings,
) -> DirectionTerms:
    """Overhang, wide terraces and cusps of each build direction, in one go.

    directions : (d, 3) unit vectors; normals : (m, 3) float32, unit, outward
    areas_mm2 : (m,); face_classes : (m,) uint8
    """
    faces = faces_by_normal(normals, areas_mm2, face_classes)
    return terms_of_directions(directions, faces, settings)


@compiled
def _cell_of(x, y, z):
    """The cell of a normal: six sides of a cube, each divided into squares."""
    sizes = abs(x), abs(y), abs(z)
    if sizes[0] >= sizes[1] and sizes[0] >= sizes[2]:
        side, u, v, size = 0 if x > 0 else 1, y, z, sizes[0]
    elif sizes[1] >= sizes[2]:
        side, u, v, size = 2 if y > 0 else 3, x, z, sizes[1]
    else:
        side, u, v, size = 4 if z > 0 else 5, x, y, sizes[2]
    i = min(int((u / size + 1.0) * (0.5 * _ACROSS)), _ACROSS - 1)
    j = min(int((v / size + 1.0) * (0.5 * _ACROSS)), _ACROSS - 1)
    return (side * _ACROSS + i) * _ACROSS + j


@compiled
def _sort_by_cell(normals, areas, face_classes, number):
    """Faces of one class by the cell of their normal: x, y, z, area, and where each cell starts."""
    cells = 6 * _ACROSS * _ACROSS
    starts = np.zeros(cells + 1, np.int64)
    cell = np.empty(len(normals), np.int32)
    for f in range(len(normals)):
        x, y, z = normals[f, 0], normals[f, 1], normals[f, 2]
        cell[f] = -1
        # A face without area has no normal and adds nothing.
        if face_classes[f] == number and areas[f] > 0 and (x != 0 or y != 0 or z != 0):
            cell[f] = _cell_of(x, y, z)
            starts[cell[f] + 1] += 1
    for c in range(cells):
        starts[c + 1] += starts[c]
    place = starts[:-1].copy()
    xs, ys = np.empty(starts[-1], np.float32), np.empty(starts[-1], np.float32)
    zs, sizes = np.empty(starts[-1], np.float32), np.empty(starts[-1], np.float32)
    for f in range(len(normals)):
        if cell[f] >= 0:
            i = place[cell[f]]
            place[cell[f]] += 1
            xs[i], ys[i], zs[i] = normals[f, 0], normals[f, 1], normals[f, 2]
            sizes[i] = areas[f]
    return xs, ys, zs, sizes, starts


@compiled
def _measure_cones(x, y, z, areas, starts):
    """For each cell: axis and half angle of a cone around its normals; Σ area · normal, Σ area."""
    cells = len(starts) - 1
    axes, angles, sums = np.zeros((cells, 3)), np.zeros(cells), np.zeros((cells, 4))
    for c in range(cells):
        axis, whole = axes[c], sums[c]
        for i in range(starts[c], starts[c + 1]):
            area = np.float64(areas[i])
            axis[0], axis[1], axis[2] = axis[0] + x[i], axis[1] + y[i], axis[2] + z[i]
            whole[0], whole[1] = whole[0] + area * x[i], whole[1] + area * y[i]
            whole[2], whole[3] = whole[2] + area * z[i], whole[3] + area
        axis /= max(np.sqrt(axis[0] ** 2 + axis[1] ** 2 + axis[2] ** 2), 1e-300)
        least = 1.0
        for i in range(starts[c], starts[c + 1]):
            least = min(least, axis[0] * x[i] + axis[1] * y[i] + axis[2] * z[i])
        # Rounding of single precision is 1e-7; near 0° that is 0.03° of angle.
        angles[c] = np.arccos(max(least - 1e-6, -1.0))
    return axes, angles, sums


@compiled
def _sum_terms(x, y, z, areas, starts, axes, angles, whole, directions, limits, sums):
    """Adds (overhang, its plan, wide terraces, stepped area, stepped area · |n_z|) to each row.

    A cell whose cone lies wholly on one side of every limit adds its sums as a whole; the faces
    of other cells are looked at one by one.
    """
    steepest, widest, level = np.float64(limits[0]), np.float64(limits[1]), np.float64(limits[2])
    for c in range(len(angles)):
        first, end = starts[c], starts[c + 1]
        if first == end:
            continue
        cos, sin = np.cos(angles[c]), np.sin(angles[c])
        for d in range(len(directions)):
            up = directions[d]
            along = axes[c, 0] * up[0] + axes[c, 1] * up[1] + axes[c, 2] * up[2]
            # cos(θ ± r) of the angle θ between axis and direction and the cone's half angle r.
            across = np.sqrt(max(1.0 - along * along, 0.0))
            low = along * cos - across * sin - _SLACK if along > -cos else -1.0
            high = along * cos + across * sin + _SLACK if along < cos else 1.0
            smallest, largest = max(low, -high, 0.0), max(high, -low)
            clear = (
                (high < steepest or low >= steepest)
                and (smallest > widest or largest <= widest)
                and (smallest >= level or largest < level)
                and smallest > 0.0
            )
            if not clear:
                for i in range(first, end, _BLOCK):
                    # Slices from 0 let the compiler use vector instructions, offsets do not.
                    j = min(i + _BLOCK, end)
                    terms = _terms_of_block(x[i:j], y[i:j], z[i:j], areas[i:j], up, limits)
                    for k in range(5):
                        sums[d, k] += terms[k]
                continue
            total = whole[c, 3]
            n_z = whole[c, 0] * up[0] + whole[c, 1] * up[1] + whole[c, 2] * up[2]
            if high < steepest:
                sums[d, 0] += total
                sums[d, 1] -= n_z
            if largest < level:
                sums[d, 2] += total if smallest > widest else 0.0
                sums[d, 3] += total
                sums[d, 4] += abs(n_z)


# Free order of additions is what vector instructions need; single precision lasts for one block.
# One direction at a time keeps its five sums, three coordinates and three limits in registers.
@compiled(fastmath={"reassoc", "contract", "nsz"})
def _terms_of_block(x, y, z, areas, up, limits):
    zero = np.float32(0)
    overhang, plan, wide, stepped, raised = zero, zero, zero, zero, zero
    ux, uy, uz = up[0], up[1], up[2]
    steepest, widest, level = limits[0], limits[1], limits[2]
    for i in range(len(x)):
        area = areas[i]
        n_z = x[i] * ux + y[i] * uy + z[i] * uz
        size = abs(n_z)
        hangs = area if n_z < steepest else zero
        overhang += hangs
        plan += hangs * size
        steps = area if size < level else zero
        wide += steps if size > widest else zero
        stepped += steps
        raised += steps * size
    return overhang, plan, wide, stepped, raised
