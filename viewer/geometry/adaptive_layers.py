"""Layers of different heights: thin where class A would show steps, thick where it would not.

A layer of height t leaves cusps of t·|n_z| on the faces it crosses. The rule (Dolenc & Mäkelä 1994,
Computer-Aided Design 26(2)) takes, from the platform up, the thickest layer whose cusps on class A
stay within a limit. That is not always the fewest layers; the optimum is found by dynamic
programming over all stacks whose boundaries lie on a fine grid of heights (Alexa, Hildebrand &
Lefebvre 2017, "Optimal discrete slicing", ACM TOG 36(1)): fewest layers first, and among those the
least volume between stairs and surface. Faces within 0.5° of level have no stairs and set no limit.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.direction_terms import LEVEL_N_Z
from viewer.geometry.face_classes import CLASS_A, ByClass, sum_by_class
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress
from viewer.words import say

STEP_MM = 0.02
MOST_STEPS = 200_000
_ROUNDED = 1.0 + 1e-6  # a cusp at the limit keeps it


class LayerRun(NamedTuple):
    """Layers of one height that follow one another; from_mm and to_mm above the platform."""

    from_mm: float
    to_mm: float
    layer_mm: float
    layers: int


@dataclass(frozen=True, eq=False)
class LayerStack:
    """layers_mm : (k,) float64, height of each layer from the platform up
    visible_area_mm2 : area with terraces wider than the road, by class
    largest_cusp_mm : on class A
    """

    layers_mm: np.ndarray
    visible_area_mm2: ByClass
    largest_cusp_mm: float

    @property
    def count(self) -> int:
        """How many layers there are."""
        return len(self.layers_mm)

    def table(self) -> tuple[LayerRun, ...]:
        """The stack as runs of equal layers, lowest first."""
        units = np.round(self.layers_mm, 6)
        starts = np.concatenate([[0], np.flatnonzero(np.diff(units)) + 1])
        ends = np.append(starts[1:], len(units))
        tops = np.concatenate([[0.0], np.cumsum(self.layers_mm)])
        return tuple(
            LayerRun(float(tops[a]), float(tops[b]), float(units[a]), int(b - a))
            for a, b in zip(starts, ends, strict=True)
        )


@dataclass(frozen=True, eq=False)
class AdaptiveLayers:
    """The same pose with even layers, with layers by the rule, and with the fewest layers.

    unmet_mm : height over which even the thinnest layer leaves larger cusps than asked for
    """

    cusp_limit_mm: float
    even: LayerStack
    by_rule: LayerStack
    optimal: LayerStack
    unmet_mm: float

    @property
    def more_layers(self) -> int:
        """Layers that the optimum has more than even ones; negative where it saves some."""
        return self.optimal.count - self.even.count


def rule_layer_mm(
    n_z: float, cusp_limit_mm: float, thinnest_mm: float, thickest_mm: float
) -> float:
    """The layer height whose cusp on a face with this n_z is the limit, within what is possible."""
    return float(min(max(cusp_limit_mm / max(abs(n_z), 1e-12), thinnest_mm), thickest_mm))


def adapt_layers(
    part: PreparedPart,
    face_classes: np.ndarray,
    up: tuple[float, float, float],
    settings: PrintSettings,
    cusp_limit_mm: float,
    thinnest_mm: float = 0.08,
    thickest_mm: float = 0.32,
    progress: Progress | None = None,
) -> AdaptiveLayers:
    """What layers of different heights would do for a pose.

    face_classes : (m,) uint8; up : unit vector in part coordinates
    raises RequestProblem for heights that make no sense, Cancelled
    """
    progress = progress or Progress()
    if not 0 < cusp_limit_mm <= 5:
        raise RequestProblem(say("The cusp limit must lie between 0 and 5 mm."))
    if not STEP_MM <= thinnest_mm <= thickest_mm <= 5:
        raise RequestProblem(
            say(
                "The thinnest layer must be at least {step_mm:g} mm and the thickest "
                "one no thinner, at most 5 mm.",
                step_mm=STEP_MM,
            )
        )
    faces = _faces_by_height(part, face_classes, np.asarray(up, np.float64))
    steps = max(int(np.ceil(faces.height_mm / STEP_MM - 1e-6)), 1)
    if steps > MOST_STEPS:
        raise RequestProblem(say("The part is too high to plan its layers one by one."))
    progress.check()
    steepest = _largest_in_steps(faces, steps)
    raised = _raised_in_steps(faces, steps)
    progress.check()
    options = np.arange(
        int(np.ceil(thinnest_mm / STEP_MM - 1e-6)), int(thickest_mm / STEP_MM + 1e-6) + 1
    )
    allowed = _allowed(steepest, options, cusp_limit_mm)
    best = _fewest_layers(allowed, options, raised, progress)
    even = max(round(faces.height_mm / settings.layer_mm), 1)

    def stack(layers: np.ndarray) -> LayerStack:
        return _stack(faces, layers * 1.0, settings.shown_terrace_mm)

    return AdaptiveLayers(
        cusp_limit_mm,
        stack(np.full(even, settings.layer_mm)),
        stack(_thickest_first(allowed, options) * STEP_MM),
        stack(best * STEP_MM),
        float(np.count_nonzero(options[0] * STEP_MM * steepest > cusp_limit_mm * _ROUNDED))
        * STEP_MM,
    )


class _Faces(NamedTuple):
    """Faces with stairs, in heights above the platform."""

    low_mm: np.ndarray
    high_mm: np.ndarray
    corners_mm: np.ndarray  # (f, 3) heights of the corners
    size: np.ndarray  # |n_z|
    area_mm2: np.ndarray
    classes: np.ndarray
    height_mm: float


def _faces_by_height(part: PreparedPart, face_classes: np.ndarray, up: np.ndarray) -> _Faces:
    heights = part.points_mm @ up
    used = heights[part.faces]
    platform = float(used.min(initial=np.inf)) if len(used) else 0.0
    size = np.abs(part.normals.astype(np.float64) @ up)
    stepped = (size < LEVEL_N_Z) & (part.exposed_mm2 > 0)
    corners = used[stepped] - platform
    return _Faces(
        corners.min(axis=1, initial=np.inf),
        corners.max(axis=1, initial=-np.inf),
        corners,
        size[stepped],
        part.exposed_mm2[stepped],
        face_classes[stepped],
        float(used.max(initial=-np.inf)) - platform if len(used) else 0.0,
    )


def _step_ranges(low: np.ndarray, high: np.ndarray, steps: int) -> tuple[np.ndarray, np.ndarray]:
    """First and last step that each height range passes through."""
    first = np.clip(np.floor(low / STEP_MM + 1e-6).astype(np.int64), 0, steps - 1)
    last = np.clip(np.ceil(high / STEP_MM - 1e-6).astype(np.int64) - 1, 0, steps - 1)
    return first, np.maximum(last, first)


def _largest_in_steps(faces: _Faces, steps: int) -> np.ndarray:
    """(steps,) largest |n_z| of class A within each step of height.

    Each face writes into two stretches of a power of two that cover its range; long stretches are
    then handed down to their halves.
    """
    shows = faces.classes == CLASS_A
    first, last = _step_ranges(faces.low_mm[shows], faces.high_mm[shows], steps)
    levels = max(int(np.log2(steps)) + 1, 1)
    table = np.zeros((levels, steps))
    level = np.log2(last - first + 1).astype(np.int64)
    for start in (first, last - (1 << level) + 1):
        np.maximum.at(table, (level, start), faces.size[shows])
    for k in range(levels - 1, 0, -1):
        half = 1 << (k - 1)
        table[k - 1] = np.maximum(table[k - 1], table[k])
        table[k - 1, half:] = np.maximum(table[k - 1, half:], table[k, : steps - half])
    return table[0]


def _raised_in_steps(faces: _Faces, steps: int) -> np.ndarray:
    """(steps,) Σ area·|n_z| of class A within each step, faces spread evenly over their height."""
    shows = faces.classes == CLASS_A
    first, last = _step_ranges(faces.low_mm[shows], faces.high_mm[shows], steps)
    each = faces.area_mm2[shows] * faces.size[shows] / (last - first + 1)
    changes = np.bincount(first, each, steps + 1) - np.bincount(last + 1, each, steps + 1)
    return np.maximum(np.cumsum(changes)[:steps], 0.0)


def _allowed(steepest: np.ndarray, options: np.ndarray, cusp_limit_mm: float) -> np.ndarray:
    """(options, steps) bool: a layer of that height may start there."""
    allowed = np.empty((len(options), len(steepest)), bool)
    for row, count in enumerate(options):
        largest = _largest_ahead(steepest, int(count))
        allowed[row] = largest * count * STEP_MM <= cusp_limit_mm * _ROUNDED
    allowed[0] = True  # thinner than the thinnest is not to be had
    return allowed


def _largest_ahead(values: np.ndarray, count: int) -> np.ndarray:
    """Largest of each value and the count − 1 that follow."""
    found, reach = values.copy(), 1
    while reach < count:
        step = min(reach, count - reach)
        found[: -step or None] = np.maximum(found[:-step], found[step:])
        reach += step
    return found


def _thickest_first(allowed: np.ndarray, options: np.ndarray) -> np.ndarray:
    """(k,) layers in steps: from below always the thickest that is allowed."""
    layers, at = [], 0
    while at < allowed.shape[1]:
        layers.append(int(options[np.flatnonzero(allowed[:, at])[-1]]))
        at += layers[-1]
    return np.array(layers)


def _fewest_layers(
    allowed: np.ndarray, options: np.ndarray, raised: np.ndarray, progress: Progress
) -> np.ndarray:
    """(k,) layers in steps: fewest, then least error, by dynamic programming from the top down."""
    steps = allowed.shape[1]
    sums = np.concatenate([[0.0], np.cumsum(raised)])
    # One layer more must weigh more than all error there can be.
    layer_cost = 1.0 + float(sums[-1]) * float(options[-1])
    cost, choice = np.zeros(steps + 1), np.zeros(steps, np.int64)
    for at in range(steps - 1, -1, -1):
        if at % 1024 == 0:
            progress.check()
        ends = np.minimum(at + options, steps)
        each = cost[ends] + layer_cost + (sums[ends] - sums[at]) * options
        each[~allowed[:, at]] = np.inf
        choice[at] = int(np.argmin(each))
        cost[at] = each[choice[at]]
    layers, at = [], 0
    while at < steps:
        layers.append(int(options[choice[at]]))
        at += layers[-1]
    return np.array(layers)


def _stack(faces: _Faces, layers_mm: np.ndarray, shown_mm: float) -> LayerStack:
    """What a stack of layers leaves on the faces; tall faces are looked at in 16 equal pieces."""
    tops = np.cumsum(layers_mm)
    tall = faces.high_mm - faces.low_mm > layers_mm.min()
    shows = faces.classes == CLASS_A
    visible = np.zeros(len(faces.size))
    largest = 0.0
    for some, weights in ((~tall, np.full((1, 3), 1 / 3)), (tall, _PIECES)):
        for weight in weights:
            middle = faces.corners_mm[some] @ weight
            layer = layers_mm[np.minimum(np.searchsorted(tops, middle), len(tops) - 1)]
            size = faces.size[some]
            width = layer * size / np.sqrt((1 - size) * (1 + size))
            visible[some] += (width > shown_mm) * faces.area_mm2[some] / len(weights)
            cusp = (layer * size)[shows[some]]
            largest = max(largest, float(cusp.max(initial=0.0)))
    return LayerStack(layers_mm, sum_by_class(visible, faces.classes), largest)


def _pieces() -> np.ndarray:
    """(16, 3) middles of the 16 equal pieces of a triangle, in barycentric coordinates."""
    found = []
    for i in range(4):
        for j in range(4 - i):
            found.append((i + 1 / 3, j + 1 / 3))
            if i + j < 3:
                found.append((i + 2 / 3, j + 2 / 3))
    pairs = np.array(found) / 4
    return np.column_stack([pairs, 1 - pairs.sum(axis=1)])


_PIECES = _pieces()
