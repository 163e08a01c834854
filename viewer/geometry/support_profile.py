"""Supports layer by layer: how much of each layer they fill, where they meet the part."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.support_samples import SupportSamples


class SupportProfile(NamedTuple):
    """Supports in the frame of `TurnedPart`, lowest layer first.

    area_mm2 : (layers,) float64, plan area of the supports that the middle of the layer meets
    moment_mm3 : (layers, 2) float64, ∫x dA and ∫y dA of that area
    touch_mm2 : (layers, 3) float64, true area of the undersides that rest on a support, at the
        layer in which the underside lies; columns A, B, unmarked
    """

    area_mm2: np.ndarray
    moment_mm3: np.ndarray
    touch_mm2: np.ndarray


def support_profile(
    samples: SupportSamples, n_z: np.ndarray, face_classes: np.ndarray, layer_mm: float, layers: int
) -> SupportProfile:
    """What the supports add to each of `layers` layers, the first of which starts at height 0.

    n_z : (m,) float32, normal · build direction
    face_classes : (m,) uint8
    """
    return SupportProfile(
        *_sum_supports(
            samples.places_mm, samples.bottom_mm, samples.top_mm, samples.top_face,
            samples.plan_mm2, n_z, face_classes, layer_mm, layers,
        )
    )  # fmt: skip


@compiled
def _sum_supports(places, bottom, top, top_face, plan, n_z, face_classes, layer, layers):
    started = np.zeros(layers + 1, np.int64)
    steps = np.zeros((layers + 1, 3))
    touch = np.zeros((layers, 3))
    for i in range(len(top)):
        face = top_face[i]
        # A thousandth of a layer is rounding: an underside at a layer's edge lies in the upper one.
        meets = min(int(top[i] / layer + 1e-3), layers - 1)
        column = (face_classes[face] + 2) % 3  # A, B, unmarked
        touch[meets, column] += plan[i] / abs(np.float64(n_z[face]))
        first, end = _first_middle(bottom[i], layer, layers), _first_middle(top[i], layer, layers)
        if first < end:
            for k, sign in ((first, 1), (end, -1)):
                started[k] += sign
                steps[k, 0] += sign * plan[i]
                steps[k, 1] += sign * plan[i] * places[i, 0]
                steps[k, 2] += sign * plan[i] * places[i, 1]
    area, moment = np.zeros(layers), np.zeros((layers, 2))
    standing = 0
    running = np.zeros(3)
    for k in range(layers):
        standing += started[k]
        running += steps[k]
        if standing == 0:
            running[:] = 0.0  # what is left is rounding
        area[k], moment[k, 0], moment[k, 1] = running[0], running[1], running[2]
    return area, moment, touch


@compiled
def _first_middle(height, layer, layers):
    """The first layer whose middle lies at or above a height, between 0 and `layers`."""
    return int(min(max(np.ceil(height / layer - 0.5), 0.0), float(layers)))
