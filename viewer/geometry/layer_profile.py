"""Area, perimeter, first moments of every layer's section, in a time that hardly grows with them.

A level plane cuts a face in a straight line. All such lines of one face are parallel; the longest
passes through its middle corner, and from there the length shrinks evenly to nothing at the lowest
and at the highest corner. With p(t) the end of the cut on the face's long edge (from its lowest to
its highest corner), d the longest cut as a vector and w(t) the share of it that is cut at height t:

    length                      w · |d|                         linear in t
    area of the triangle from the origin to the cut (shoelace formula; their sum over a closed
    outline is its area)        a = w · (p × d) / 2             quadratic
    first moment of that triangle, area by centroid
                                a · (2p + w·d) / 3              cubic

A face that meets many planes adds its coefficients where it starts and takes them off where it
ends; one sum over the layers gives all. A face that meets few planes adds its values: nearly level
faces have coefficients too large to take off.

A corner lies below a plane if s <= s_plane, in every face alike, so that cuts close to outlines
even where corners, edges and level faces lie on planes.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.mesh import frozen
from viewer.progress import Progress
from viewer.words import say

_FEW_LAYERS = 8
MOST_LAYERS = 5_000_000


@dataclass(frozen=True, eq=False)
class LayerProfile:
    """Sections at the middle of each layer, lowest first.

    area_mm2, perimeter_mm : (layers,) float64
    """

    area_mm2: np.ndarray
    perimeter_mm: np.ndarray


class LayerMoments(NamedTuple):
    """Sections at the middle of each layer, lowest first, with their first moments.

    area_mm2, perimeter_mm : (layers,) float64
    moment_mm3 : (layers, 2) float64, ∫x dA and ∫y dA
    """

    area_mm2: np.ndarray
    perimeter_mm: np.ndarray
    moment_mm3: np.ndarray


def layer_count(height_mm: float, layer_mm: float) -> int:
    """Number of layers that hold `height_mm`; a thousandth of a layer is rounding, not a layer.

    raises RequestProblem if the layer height gives no usable number
    """
    if not (np.isfinite(layer_mm) and layer_mm > 0):
        raise RequestProblem(say("The layer height must be larger than 0 mm."))
    layers = max(int(np.ceil(height_mm / layer_mm - 1e-3)), 1)
    if layers > MOST_LAYERS:
        raise RequestProblem(
            say(
                "The part would have {layers:,} layers; choose a larger layer height.",
                layers=layers,
            )
        )
    return layers


def layer_profile(
    posed_mm: np.ndarray,
    faces: np.ndarray,
    layer_mm: float,
    platform_mm: float = 0.0,
    progress: Progress | None = None,
) -> LayerProfile:
    """Area and perimeter of the sections at `platform_mm` + (i + ½) · `layer_mm`.

    posed_mm : (n, 3) float64, vertices turned so that z is up
    faces : (m, 3) int32, wound outward; where shells overlap, those of their union
    raises RequestProblem if the layer height gives no usable number of layers; Cancelled
    """
    sums, _ = _cut(posed_mm, faces, layer_mm, platform_mm, None, False, progress or Progress())
    return LayerProfile(frozen(sums[:, 0]), frozen(sums[:, 1]))


def layer_moments(
    posed_mm: np.ndarray,
    faces: np.ndarray,
    layer_mm: float,
    platform_mm: float = 0.0,
    layers: int | None = None,
    progress: Progress | None = None,
) -> LayerMoments:
    """Like `layer_profile`, with the first moments about the origin of `posed_mm`.

    layers : how many, if not as many as the faces reach
    Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    sums, centre = _cut(posed_mm, faces, layer_mm, platform_mm, layers, True, progress)
    area = sums[:, 0]
    return LayerMoments(
        frozen(area), frozen(sums[:, 1]), frozen(sums[:, 2:] + area[:, None] * centre)
    )


def _cut(posed_mm, faces, layer_mm, platform_mm, layers, moments, progress):
    """(layers, 2 or 4) sums, moments about the centre, which is returned too."""
    if not len(faces):
        layer_count(0.0, layer_mm)  # refuses what cannot be
        return np.zeros((layers or 0, 4 if moments else 2)), np.zeros(2)
    low, high = _box(posed_mm, faces)
    progress.check()
    if layers is None:
        layers = layer_count(high[2] - platform_mm, layer_mm)
    # Near the origin in x and y, the coefficients keep their digits.
    centre = 0.5 * (low + high)[:2]
    scaled, planes = _count_planes_below(posed_mm, centre, platform_mm, layer_mm, layers)
    progress.check()
    sums = _sum_cuts(scaled, planes, faces, layers, moments, progress.stop_flag)
    progress.check()
    return sums, centre


@compiled
def _box(points, faces):
    """Lowest and highest corner over the vertices that faces use."""
    x0, y0, z0, x1, y1, z1 = np.inf, np.inf, np.inf, -np.inf, -np.inf, -np.inf
    for f in range(len(faces)):
        for corner in range(3):
            v = faces[f, corner]
            x, y, z = points[v, 0], points[v, 1], points[v, 2]
            x0, x1 = min(x0, x), max(x1, x)
            y0, y1 = min(y0, y), max(y1, y)
            z0, z1 = min(z0, z), max(z1, z)
    return np.array([x0, y0, z0]), np.array([x1, y1, z1])


@compiled
def _count_planes_below(points, centre, platform, layer, layers):
    """Points with x and y about the centre and z in layers, and how many planes lie below each."""
    scaled = np.empty_like(points)
    planes = np.empty(len(points), np.int32)
    for v in range(len(points)):
        scaled[v, 0] = points[v, 0] - centre[0]
        scaled[v, 1] = points[v, 1] - centre[1]
        s = (points[v, 2] - platform) / layer
        scaled[v, 2] = s
        planes[v] = np.int32(min(max(np.ceil(s - 0.5), 0.0), float(layers)))
    return scaled, planes


class _Cut(NamedTuple):
    """The cuts of one face, heights in layers: see the top of this file."""

    low: float
    high: float
    grow: float  # of w for each layer, from the lowest corner up to the middle one
    shrink: float  # from there up to the highest
    size: float  # |d|
    dx: float
    dy: float
    x: float  # p at the lowest corner, and how it changes in a layer
    y: float
    gx: float
    gy: float
    c0: float  # ±(p × d) / 2 at the lowest corner, and how it changes in a layer
    c1: float


@compiled
def _sum_cuts(points, planes, faces, layers, moments, stop):
    """points : x and y in mm, z in layers."""
    sums = np.zeros((layers, 4 if moments else 2))
    steps = np.zeros((layers + 1, 13 if moments else 5))
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        low, mid, high = np.uint64(faces[f, 0]), np.uint64(faces[f, 1]), np.uint64(faces[f, 2])
        first, turn, end = planes[low], planes[mid], planes[high]
        if first == turn and turn == end:
            continue
        a, b, c = points[low, 2], points[mid, 2], points[high, 2]
        # Sorted by height; each swap turns the cut's sense round.
        sense = 0.5
        if a > b:
            low, mid, a, b, first, turn, sense = mid, low, b, a, turn, first, -sense
        if b > c:
            mid, high, b, c, turn, end, sense = high, mid, c, b, end, turn, -sense
        if a > b:
            low, mid, a, b, first, turn, sense = mid, low, b, a, turn, first, -sense
        x, y = points[low, 0], points[low, 1]
        along = 1.0 / (c - a)
        gx, gy = along * (points[high, 0] - x), along * (points[high, 1] - y)
        dx, dy = points[mid, 0] - x - gx * (b - a), points[mid, 1] - y - gy * (b - a)
        c0, c1 = sense * (x * dy - y * dx), sense * (gx * dy - gy * dx)
        size = np.sqrt(dx * dx + dy * dy)
        cut = _Cut(a, c, 1 / (b - a), 1 / (c - b), size, dx, dy, x, y, gx, gy, c0, c1)
        if end - first <= _FEW_LAYERS:
            _add_values(sums, first, turn, end, cut, moments)
            continue
        for start, until, grow, zero in ((first, turn, cut.grow, a), (turn, end, -cut.shrink, c)):
            if until - start <= _FEW_LAYERS:
                _add_values(sums, start, turn, until, cut, moments)
            else:
                _add_steps(steps, start, until, grow, zero, cut, moments)
    _add_running_sums(sums, steps, moments)
    return sums


@compiled
def _add_values(sums, start, turn, stop, cut, moments):
    """Add the cut at each plane from `start` up to `stop`; at plane `turn` it starts to shrink."""
    for k in range(start, stop):
        t = k + 0.5
        w = (t - cut.low) * cut.grow if k < turn else (cut.high - t) * cut.shrink
        area = w * (cut.c0 + cut.c1 * (t - cut.low))
        sums[k, 0] += area
        sums[k, 1] += w * cut.size
        if moments:
            sums[k, 2] += area * (2 * (cut.x + cut.gx * (t - cut.low)) + w * cut.dx) / 3
            sums[k, 3] += area * (2 * (cut.y + cut.gy * (t - cut.low)) + w * cut.dy) / 3


@compiled
def _add_steps(steps, start, stop, grow, zero, cut, moments):
    """Add the coefficients over t, 0 at mid-height, at `start` and take them off at `stop`.

    w = grow · (height − zero)
    """
    middle = 0.5 * (len(steps) - 1)
    w0 = grow * (middle - zero)
    c0 = cut.c0 + cut.c1 * (middle - cut.low)
    a0, a1, a2 = w0 * c0, w0 * cut.c1 + grow * c0, grow * cut.c1
    for k, sign in ((start, 1.0), (stop, -1.0)):
        steps[k, 0] += sign * a0
        steps[k, 1] += sign * a1
        steps[k, 2] += sign * a2
        steps[k, 3] += sign * w0 * cut.size
        steps[k, 4] += sign * grow * cut.size
        if moments:
            for column, p, g, d in ((5, cut.x, cut.gx, cut.dx), (9, cut.y, cut.gy, cut.dy)):
                # Twice the place on the long edge and w · d, each a third.
                e0 = sign * (2 * (p + g * (middle - cut.low)) + w0 * d) / 3
                e1 = sign * (2 * g + grow * d) / 3
                steps[k, column] += a0 * e0
                steps[k, column + 1] += a0 * e1 + a1 * e0
                steps[k, column + 2] += a1 * e1 + a2 * e0
                steps[k, column + 3] += a2 * e1


@compiled
def _add_running_sums(sums, steps, moments):
    running = np.zeros(steps.shape[1])
    middle = 0.5 * len(sums)
    for k in range(len(sums)):
        running += steps[k]
        t = k + 0.5 - middle
        sums[k, 0] += running[0] + t * (running[1] + t * running[2])
        sums[k, 1] += running[3] + t * running[4]
        if moments:
            for axis in range(2):
                c = running[5 + 4 * axis : 9 + 4 * axis]
                sums[k, 2 + axis] += c[0] + t * (c[1] + t * (c[2] + t * c[3]))
