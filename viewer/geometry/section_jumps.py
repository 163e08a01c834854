"""Sudden jumps of the section between neighbouring layers."""

import numpy as np

JUMP_SHARE = 0.5  # of the larger of the two sections
LEAST_JUMP_MM2 = 25.0  # common practice, no source: smaller ledges leave no line on the wall
_STEADY = 4.0  # times the usual change in the layers around: what widens steadily does not jump
_AROUND = 3  # layers


def find_section_jumps(area_mm2: np.ndarray) -> np.ndarray:
    """Layers (k,) int64 whose section differs suddenly from that of the layer below.

    area_mm2 : (layers,) float64, sections at the middle of each layer
    """
    if len(area_mm2) < 3:
        return np.empty(0, np.int64)
    change = np.abs(np.diff(area_mm2))
    larger = np.maximum(area_mm2[1:], area_mm2[:-1])
    large = (change > JUMP_SHARE * larger) & (change > LEAST_JUMP_MM2)
    layers = np.flatnonzero(large)
    sudden = []
    for layer in layers.tolist():
        around = change[max(layer - _AROUND, 0) : layer + _AROUND + 1]
        others = np.delete(around, min(layer, _AROUND))
        sudden.append(change[layer] > _STEADY * np.median(others))
    return layers[np.array(sudden, bool)] + 1
