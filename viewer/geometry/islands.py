"""Islands: where a layer starts in mid-air.

An island is a connected region of a layer (section at the middle of the layer) with nothing of the
part in the layer below, which does not start on the platform. See `island_cups` for how they are
found, `island_regions` for the check of what lies below, `island_supports` for their support.

A sliver thinner than a layer that leans out of the layer below is connected to it and is no
island. In an open surface, an island whose cup has a hole is not found.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.island_cups import find_cups
from viewer.geometry.island_regions import regions_of, stand_on_nothing
from viewer.geometry.island_supports import supports_of_cups
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.turned_part import TurnedPart
from viewer.progress import Progress

SNAP = 1e-4  # share of a layer by which a level face may miss the middle of a layer: rounding


class Islands(NamedTuple):
    """The islands of a pose, lowest layer first.

    lowest_mm : (c, 3) float64, lowest point, in the frame of `TurnedPart`
    lowest_part_mm : (c, 3) float64, the same point in part coordinates
    centre_mm : (c, 3) float64, centroid of its region in the frame of `TurnedPart`
    height_mm : (c,) float64, of the lowest point above the platform
    layer : (c,) int32, layer in which the island starts, the lowest being 0
    area_mm2 : (c,) float64, of its region at the middle of that layer, exact
    each_support_mm3, each_support_error_mm3 : (c,) float64, volume from its underside down to the
        next solid or the platform, and one standard error
    count, support_mm3, support_error_mm3 : over all islands
    """

    lowest_mm: np.ndarray
    lowest_part_mm: np.ndarray
    centre_mm: np.ndarray
    height_mm: np.ndarray
    layer: np.ndarray
    area_mm2: np.ndarray
    each_support_mm3: np.ndarray
    each_support_error_mm3: np.ndarray
    count: int
    support_mm3: float
    support_error_mm3: float


def find_islands(
    part: PreparedPart, turned: TurnedPart, settings: PrintSettings, progress: Progress
) -> Islands:
    """All islands of a pose.

    turned : `part.points_mm` turned
    raises Cancelled if `progress` says so
    """
    points = turned.points_mm
    if part.solid_points_mm is not part.points_mm:
        points = part.solid_points_mm @ turned.rotation.T
    layer, snap = settings.layer_mm, SNAP * settings.layer_mm
    cups = find_cups(
        points, part.solid_faces, part.solid_neighbours, turned.platform_mm, layer, snap, progress
    )
    if not len(cups.layer):
        return _named(
            part, turned, layer, np.empty((0, 3)), np.empty((0, 2)), cups.layer, *np.empty((3, 0))
        )
    progress.check()
    regions = regions_of(cups)
    progress.check()
    united = part.solid_faces is not part.faces or not part.overlapping
    free = stand_on_nothing(
        cups, regions, part.ray_tree, turned.rotation, turned.platform_mm, layer, snap, united,
        progress,
    )  # fmt: skip
    progress.check()
    support, error = supports_of_cups(
        cups, points, part.solid_faces, part.ray_tree, turned.rotation, turned.platform_mm, layer,
        progress,
    )  # fmt: skip
    cup, share = regions.cup[free], regions.share[free]
    return _named(
        part, turned, layer, points[cups.lowest_vertex[cup]], regions.centre_mm[free],
        cups.layer[cup], regions.area_mm2[free], support[cup] * share, error[cup] * share,
    )  # fmt: skip


def _named(part, turned, layer_mm, lowest, centre, layer, area, support, error) -> Islands:
    middle = turned.platform_mm + (layer + 0.5) * layer_mm
    return Islands(
        lowest_mm=lowest,
        lowest_part_mm=lowest @ turned.rotation + part.centre_mm,
        centre_mm=np.column_stack([centre, middle]),
        height_mm=lowest[:, 2] - turned.platform_mm,
        layer=layer,
        area_mm2=area,
        each_support_mm3=support,
        each_support_error_mm3=error,
        count=len(layer),
        support_mm3=float(support.sum()),
        support_error_mm3=float(np.sqrt(np.sum(error**2))),
    )
