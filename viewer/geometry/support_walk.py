"""Walk up each line through the part and stand a support under every underside that needs one."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.column_field import ColumnField
from viewer.geometry.compiled import compiled

CLOSED_GAP_MM = 0.001  # bodies closer than this are one body


class StandingSupports(NamedTuple):
    """Supports found on the lines of a column field.

    line : (s,) int32, the line on which the support stands
    bottom_mm, top_mm : (s,) float64, above the platform
    bottom_face : (s,) int32, −1 for the platform
    top_face : (s,) int32
    doubtful_share : share of the lines through the part whose crossings do not cancel out
    """

    line: np.ndarray
    bottom_mm: np.ndarray
    top_mm: np.ndarray
    bottom_face: np.ndarray
    top_face: np.ndarray
    doubtful_share: float


def stand_supports(
    field: ColumnField, needs_support: np.ndarray, platform_mm: float
) -> StandingSupports:
    """Supports under the faces marked in `needs_support` ((m,) bool), platform at `platform_mm`.

    The part is solid where the winding number is above 0 (union of all shells). A line whose
    crossings do not cancel out comes from an open surface; there each lower side is taken as the
    start of the solid and each upper side as its end, whatever lies between.

    A gap of less than 0.001 mm between two bodies is closed. One above the platform is not: there
    an underside lies on the platform only if its whole face does.
    """
    *arrays, doubtful, crossed = _walk_lines(
        field.starts, field.z_mm, field.side, needs_support, platform_mm
    )
    return StandingSupports(*arrays, doubtful / max(crossed, 1))


@compiled
def _walk_lines(starts, z_mm, side, needs_support, platform):
    room = 0
    for i in range(len(side)):
        room += (side[i] & 1) == 0 and needs_support[side[i] >> 1]
    line = np.empty(room, np.int32)
    bottom, top = np.empty(room, np.float64), np.empty(room, np.float64)
    bottom_face, top_face = np.empty(room, np.int32), np.empty(room, np.int32)
    found, doubtful, crossed = 0, 0, 0
    for column in range(len(starts) - 1):
        first, last = starts[column], starts[column + 1]
        if first == last:
            continue
        balance = 0
        for i in range(first, last):
            balance += -1 if side[i] & 1 else 1
        open_line = balance != 0
        crossed += 1
        doubtful += open_line
        winding = 0
        floor, floor_face = platform, np.int32(-1)
        for i in range(first, last):
            face = side[i] >> 1
            if side[i] & 1:
                winding = 0 if open_line else winding - 1
                if winding == 0:
                    floor, floor_face = z_mm[i], face
            else:
                winding = 1 if open_line else winding + 1
                starts_here = winding == 1 and (not open_line or i == first or side[i - 1] & 1)
                apart = floor_face < 0 or z_mm[i] - floor >= CLOSED_GAP_MM
                # Of repeated shells only one bears the need for support.
                j = i + 1
                while not needs_support[face] and j < last and z_mm[j] - z_mm[i] < CLOSED_GAP_MM:
                    face = face if side[j] & 1 else side[j] >> 1
                    j += 1
                if starts_here and needs_support[face] and apart:
                    line[found] = column
                    bottom[found], top[found] = floor - platform, z_mm[i] - platform
                    bottom_face[found], top_face[found] = floor_face, face
                    found += 1
    arrays = line[:found], bottom[:found], top[:found], bottom_face[:found], top_face[:found]
    return arrays[0], arrays[1], arrays[2], arrays[3], arrays[4], doubtful, crossed
