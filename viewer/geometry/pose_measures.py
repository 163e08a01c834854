"""The one table of numbers for a pose; its field names are the keys of `measure --json`."""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from viewer.geometry.face_classes import ByClass
from viewer.geometry.support_columns import SupportColumns

if TYPE_CHECKING:  # they hold kernels, which the plain measures do without
    from viewer.geometry.flat_faces import FlatFace
    from viewer.geometry.pose_profile import PoseProfile

NOTHING = ByClass(0.0, 0.0, 0.0, 0.0)


class Landing(NamedTuple):
    """Area on which supports stand, by class of the part face, and on the platform."""

    A: float
    B: float
    unmarked: float
    platform: float
    total: float


class Island(NamedTuple):
    """One place where a layer starts in mid-air.

    height_mm : of its lowest point above the platform; layer : the first is 0
    place_mm : that point in part coordinates
    area_mm2 : of its region in that layer; support_mm3 : volume from there down
    """

    height_mm: float
    layer: int
    place_mm: tuple[float, float, float]
    area_mm2: float
    support_mm3: float


class ShutIn(NamedTuple):
    """One place with support that no straight way leads to.

    place_mm : in part coordinates, within the support; height_mm : of that above the platform
    volume_mm3 : of the support about there; sealed : no way at all leads there
    """

    place_mm: tuple[float, float, float]
    height_mm: float
    volume_mm3: float
    sealed: bool


class FaceFields:
    """What the lenses show, per face.

    terrace_counts : (m,) bool: the face belongs to a field of terraces (see `terraces`)
    """

    def __init__(
        self, touch_share: np.ndarray | Callable[[], np.ndarray], terrace_counts: np.ndarray
    ) -> None:
        self._touch_share = touch_share
        self.terrace_counts = terrace_counts

    @cached_property
    def touch_share(self) -> np.ndarray:
        """(m,) float32, 0..1: share of the face's area that a support bears against.

        Worked out when first asked for: while a part turns, only one of the lenses does.
        """
        return self._touch_share() if callable(self._touch_share) else self._touch_share


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
    # From here on full tier only, None in the quick one.
    ra_ideal_um: ByClass | None = None
    ra_estimate_um: ByClass | None = None
    graze_area_mm2: ByClass | None = None
    islands: int | None = None
    island_places: tuple[Island, ...] | None = None
    island_support_mm3: float | None = None  # what stands under overhangs is in support_volume, too
    unreachable_support_mm3: float | None = None
    sealed_support_mm3: float | None = None
    unreachable_places: tuple[ShutIn, ...] | None = None
    centre_of_mass_mm: np.ndarray | None = None  # (3,) in the posed frame
    contact_polygon_mm: np.ndarray | None = None  # (k, 2) in the posed frame
    tip_angle_supported_deg: float | None = None
    tip_angle_worst_deg: float | None = None  # while it is printed
    tip_angle_worst_mm: float | None = None  # height printed by then
    flat_faces: "tuple[FlatFace, ...] | None" = None
    flat_off_grid_mm2: ByClass | None = None
    profile: "PoseProfile | None" = None
    # In both tiers again.
    doubtful_share: float = 0.0  # share of grid columns an open mesh left undecided
    notes: tuple[str, ...] = ()  # such as "2 shells point inward; measured as what they enclose"
    error: dict[str, object] = field(default_factory=dict)
    faces: FaceFields | None = None
    columns: SupportColumns | None = None
