"""What is purged at changes of material, and the body that is printed beside the part out of it.

A body that grows along with the part must be there in every layer up to the last change; where
less is purged than it needs, it is filled sparsely.
"""

from dataclasses import dataclass

import numpy as np

from viewer.shop.machines import Machine
from viewer.shop.tool_changes import ToolChanges

SPARSE = 0.15  # least filling of the body in a layer (common practice, no source)


@dataclass(frozen=True, eq=False)
class Purging:
    """What goes into purging, lowest layer first.

    purged_mm3 : (k, tools) float64, by the material that takes over
    filler_mm3 : (k,) float64, laid to keep the body growing
    body_mm : width, depth and height of the body; zeros where there is none
    """

    purged_mm3: np.ndarray
    filler_mm3: np.ndarray
    body_mm: tuple[float, float, float]


def purging_of(changes: ToolChanges, machine: Machine, layer_mm: float) -> Purging:
    """What the changes of a print purge on a machine."""
    purged = changes.into_by_layer * machine.change_mm3
    each = purged.sum(axis=1)
    filler = np.zeros(len(each))
    if not machine.has_purge_body or not changes.count:
        return Purging(purged, filler, (0.0, 0.0, 0.0))
    width, depth = machine.purge_body_mm
    depth = max(depth, float(each.max()) / (layer_mm * width))
    used = int(np.flatnonzero(changes.by_layer)[-1]) + 1
    filler[:used] = np.maximum(SPARSE * width * depth * layer_mm - each[:used], 0.0)
    return Purging(purged, filler, (width, depth, used * layer_mm))
