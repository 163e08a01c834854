"""The one table of numbers for a pose; its field names are the keys of `measure --json`."""

from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from viewer.geometry.face_classes import ByClass
from viewer.geometry.support_columns import SupportColumns

NOTHING = ByClass(0.0, 0.0, 0.0, 0.0)


class Landing(NamedTuple):
    """Area on which supports stand, by class of the part face, and on the platform."""

    A: float
    B: float
    unmarked: float
    platform: float
    total: float


@dataclass(frozen=True, eq=False)
class FaceFields:
    """What the lenses show, per face.

    touch_share : (m,) float32, 0..1: share of the face's area that a support bears against
    terrace_counts : (m,) bool: the face belongs to a field of terraces (see `terraces`)
    """

    touch_share: np.ndarray
    terrace_counts: np.ndarray


@dataclass(frozen=True, eq=False)
class PoseMeasures:
    """All numbers of one pose; areas are true surface areas.

    `tier` is "quick" (while the part turns) or "full" (at rest). `error` holds one standard error
    for each sampled number under the same key (ByClass, Landing or float); exact numbers are
    absent from it.
    """

    tier: str
    height_mm: float
    layers: int
    overhang_area_mm2: ByClass
    touch_area_mm2: ByClass
    landing_area_mm2: Landing
    support_volume_mm3: float
    support_plan_area_mm2: float
    platform_contact_mm2: ByClass
    first_layer_mm2: float
    terrace_mean_width_mm: ByClass
    terrace_visible_area_mm2: ByClass
    cusp_mean_mm: ByClass
    tip_angle_deg: float | None
    bridged_area_mm2: ByClass = NOTHING
    touch_short_mm2: ByClass = NOTHING  # over gaps of less than half a layer
    graze_area_mm2: ByClass | None = None  # full tier only
    doubtful_share: float = 0.0  # share of grid columns an open mesh left undecided
    notes: tuple[str, ...] = ()  # such as "2 shells point inward; measured as what they enclose"
    error: dict[str, object] = field(default_factory=dict)
    faces: FaceFields | None = None
    columns: SupportColumns | None = None
