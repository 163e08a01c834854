"""Area and perimeter of every layer's section, in a time that hardly depends on their number.

While a rising plane passes between two corners of a face, the two ends p and q of its cut move
along straight edges. So the cut's share of the section's area, p × q / 2 (shoelace formula), is
quadratic in the height, and its length linear. A face that meets many planes therefore adds its
coefficients where it starts and takes them off where it ends; one sum over the layers gives all.
A face that meets few planes adds its values: level faces have coefficients too large to take off.

A corner lies below a plane if s <= s_plane, in every face alike, so that cuts close to outlines
even where corners, edges and level faces lie on planes.
"""

from dataclasses import dataclass

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.compiled import compiled
from viewer.geometry.mesh import frozen

_FEW_LAYERS = 4
MOST_LAYERS = 5_000_000


@dataclass(frozen=True, eq=False)
class LayerProfile:
    """Sections at the middle of each layer, lowest first.

    area_mm2, perimeter_mm : (layers,) float64
    """

    area_mm2: np.ndarray
    perimeter_mm: np.ndarray


def layer_profile(
    posed_mm: np.ndarray, faces: np.ndarray, layer_mm: float, platform_mm: float = 0.0
) -> LayerProfile:
    """Area and perimeter of the sections at `platform_mm` + (i + ½) · `layer_mm`.

    posed_mm : (n, 3) float64, vertices turned so that z is up
    faces : (m, 3) int32, wound outward; where shells overlap, those of their union
    raises RequestProblem if the layer height gives no usable number of layers
    """
    if not (np.isfinite(layer_mm) and layer_mm > 0):
        raise RequestProblem("The layer height must be larger than 0 mm.")
    if not len(faces):
        return LayerProfile(frozen(np.zeros(0)), frozen(np.zeros(0)))
    low, high = _box(posed_mm, faces)
    # A thousandth of a layer is rounding, not a layer.
    layers = max(int(np.ceil((high[2] - platform_mm) / layer_mm - 1e-3)), 1)
    if layers > MOST_LAYERS:
        raise RequestProblem(
            f"The part would have {layers:,} layers; choose a larger layer height."
        )
    # Near the origin in x and y, the coefficients keep their digits.
    centred = posed_mm - [*(0.5 * (low + high)[:2]), platform_mm]
    centred[:, 2] /= layer_mm
    area, perimeter = _sum_cuts(centred, faces, layers)
    return LayerProfile(frozen(area), frozen(perimeter))


@compiled
def _box(points, faces):
    """Lowest and highest corner over the vertices that faces use."""
    low, high = np.full(3, np.inf), np.full(3, -np.inf)
    for f in range(len(faces)):
        for corner in range(3):
            for k in range(3):
                value = points[faces[f, corner], k]
                low[k], high[k] = min(low[k], value), max(high[k], value)
    return low, high


@compiled
def _sum_cuts(points, faces, layers):
    """points : x and y in mm, z in layers."""
    area, perimeter = np.zeros(layers), np.zeros(layers)
    area_steps, perimeter_steps = np.zeros((layers + 1, 3)), np.zeros((layers + 1, 2))
    middle = 0.5 * layers
    for f in range(len(faces)):
        low, mid, high = faces[f, 0], faces[f, 1], faces[f, 2]
        # Sorted by height; each swap turns the cut's sense round.
        sense = 0.5
        if points[low, 2] > points[mid, 2]:
            low, mid, sense = mid, low, -sense
        if points[mid, 2] > points[high, 2]:
            mid, high, sense = high, mid, -sense
        if points[low, 2] > points[mid, 2]:
            low, mid, sense = mid, low, -sense
        first = _first_layer(points[low, 2], layers)
        turn = _first_layer(points[mid, 2], layers)
        end = _first_layer(points[high, 2], layers)
        if first == end:
            continue
        for half in range(2):
            start, stop = (first, turn) if half == 0 else (turn, end)
            a, b = (low, mid) if half == 0 else (mid, high)
            if start == stop:
                continue
            # p = p0 + p1 · t along the long edge, q along the short one; t is 0 at the middle.
            p0x, p0y, p1x, p1y = _line(points, low, high, middle)
            q0x, q0y, q1x, q1y = _line(points, a, b, middle)
            # The cut has no length at the corner the two edges share, and grows evenly from it.
            apex = points[low if half == 0 else high, 2] - middle
            growth = np.sqrt((q1x - p1x) ** 2 + (q1y - p1y) ** 2)
            if half == 1:
                growth = -growth
            if stop - start <= _FEW_LAYERS:
                for k in range(start, stop):
                    t = k + 0.5 - middle
                    px, py, qx, qy = p0x + p1x * t, p0y + p1y * t, q0x + q1x * t, q0y + q1y * t
                    area[k] += sense * (px * qy - py * qx)
                    perimeter[k] += growth * (t - apex)
                continue
            c0 = sense * (p0x * q0y - p0y * q0x)
            c1 = sense * (p0x * q1y - p0y * q1x + p1x * q0y - p1y * q0x)
            c2 = sense * (p1x * q1y - p1y * q1x)
            for k, sign in ((start, 1.0), (stop, -1.0)):
                area_steps[k, 0] += sign * c0
                area_steps[k, 1] += sign * c1
                area_steps[k, 2] += sign * c2
                perimeter_steps[k, 0] -= sign * growth * apex
                perimeter_steps[k, 1] += sign * growth
    _add_running_sums(area, perimeter, area_steps, perimeter_steps, middle)
    return area, perimeter


@compiled
def _first_layer(s, layers):
    """The first layer whose middle lies at or above s, between 0 and `layers`."""
    return int(min(max(np.ceil(s - 0.5), 0.0), float(layers)))


@compiled
def _line(points, a, b, middle):
    """x, y of the edge from a to b at height `middle`, and how they change in a layer."""
    rise = points[b, 2] - points[a, 2]
    along_x = (points[b, 0] - points[a, 0]) / rise
    along_y = (points[b, 1] - points[a, 1]) / rise
    back = middle - points[a, 2]
    return points[a, 0] + along_x * back, points[a, 1] + along_y * back, along_x, along_y


@compiled
def _add_running_sums(area, perimeter, area_steps, perimeter_steps, middle):
    c0, c1, c2, d0, d1 = 0.0, 0.0, 0.0, 0.0, 0.0
    for k in range(len(area)):
        c0 += area_steps[k, 0]
        c1 += area_steps[k, 1]
        c2 += area_steps[k, 2]
        d0 += perimeter_steps[k, 0]
        d1 += perimeter_steps[k, 1]
        t = k + 0.5 - middle
        area[k] += c0 + t * (c1 + t * c2)
        perimeter[k] += d0 + t * d1
