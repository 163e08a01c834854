"""Which of very many faces upright lines may meet, without a look at most of their corners.

First the ball round each four of faces (see `face_fours`) is asked whether a line may stand in the
disc that it is from above, then of the fours that are left each face whether a line may stand in
the box around it. Both are told for eight at a time and a little too often, never too seldom.
"""

import numpy as np

from viewer.geometry.column_grid import shift_of_row
from viewer.geometry.compiled import compiled
from viewer.geometry.face_fours import FOUR, STEPS
from viewer.geometry.face_rows import FREE_ORDER

_BLOCK = 2048  # balls looked at in one go; what is worked out of them stays in the nearest cache
_BATCH = 64  # fours of which the corners are looked at in one go
_FACES = FOUR * _BATCH
_SLACK = np.float32(1e-3)  # of the pitch, for the rounding of single precision
_ROUNDED = np.float32(0.87)  # of a step; half a step along each axis is √¾ of one


@compiled
def faces_near_lines(fours, faces, rotation, grid):
    """Places of faces that lines of a grid may meet, (k,) int32 rising.

    fours : FaceFours; faces : how many there are
    rotation : (3, 3) float64, from the frame of the faces to that of the grid
    """
    places = np.empty(FOUR * len(fours.x) + 1, np.int32)
    stays, chosen = np.empty(_BLOCK, np.uint8), np.empty(_BLOCK + 1, np.int32)
    u, v = np.empty(_BLOCK, np.float32), np.empty(_BLOCK, np.float32)
    steps, room = np.empty((9, _BATCH), np.int32), np.empty(3 * _FACES, np.float32)
    per_mm = np.float32(1.0 / grid.pitch_mm)
    to_u, to_v = rotation[0].astype(np.float32), rotation[1].astype(np.float32)
    to_u, to_v = to_u * per_mm, to_v * per_mm
    u0, v0 = np.float32(grid.x0_mm) * per_mm, np.float32(grid.y0_mm) * per_mm
    count = 0
    for start in range(0, len(fours.x), _BLOCK):
        stop = min(start + _BLOCK, len(fours.x))
        # Slices from 0 let the compiler use vector instructions, offsets do not.
        x, y, z = fours.x[start:stop], fours.y[start:stop], fours.z[start:stop]
        _turn_middles(x, y, z, to_u[0], to_u[1], to_u[2], u0, u)
        _turn_middles(x, y, z, to_v[0], to_v[1], to_v[2], v0, v)
        radius = fours.radius_mm[start:stop]
        _balls_may_meet(u, v, radius, per_mm, grid, stays[: stop - start])
        held = _chosen(stays[: stop - start], chosen)
        for first in range(0, held, _BATCH):
            batch = chosen[first : min(first + _BATCH, held)]
            _unfold(fours.corners[start:stop], radius, u, v, batch, steps, room)
            _corners_may_meet(
                steps.reshape(-1).view(np.int8), room, per_mm, to_u, to_v, grid, stays[:_FACES]
            )
            for i in range(FOUR * len(batch)):
                # To branch on each would cost more: no processor foresees which ones stay.
                places[count] = FOUR * (start + batch[i // FOUR]) + i % FOUR
                count += stays[i]
    while count > 0 and places[count - 1] >= faces:  # what fills up the last four
        count -= 1
    return places[:count]


@compiled
def _chosen(stays, chosen):
    """Write down where `stays` is 1; returns how often."""
    count = 0
    for i in range(len(stays)):
        chosen[count] = i
        count += stays[i]
    return count


@compiled(fastmath=FREE_ORDER)
def _turn_middles(x, y, z, to_x, to_y, to_z, origin, along):
    for i in range(len(x)):
        along[i] = to_x * x[i] + to_y * y[i] + to_z * z[i] - origin


@compiled
def _balls_may_meet(u, v, radius, per_mm, grid, stays):
    _discs_may_meet(
        u, v, radius, per_mm, grid.start_u, grid.step_u, grid.start_v, grid.step_v,
        np.float32(grid.nx), np.float32(grid.ny), stays,
    )  # fmt: skip


@compiled(fastmath=FREE_ORDER)
def _discs_may_meet(u, v, radius, per_mm, start_u, step_u, start_v, step_v, nx, ny, stays):
    """Whether a line may stand in each disc; the shifts of its rows are worked out, not read."""
    for f in range(len(stays)):
        reach = radius[f] * per_mm + _SLACK
        low, high, middle = v[f] - reach, v[f] + reach, u[f]
        # How many rows lie at or below the two ends of the disc.
        below, above = np.floor(low), np.floor(high)
        first = below + (low - below >= shift_of_row(np.int32(below), start_v, step_v))
        last = above + (high - above >= shift_of_row(np.int32(above), start_v, step_v))
        # Half the chord that the first row cuts out of the disc.
        beside = v[f] - first - shift_of_row(np.int32(first), start_v, step_v)
        half = np.sqrt(max(reach * reach - beside * beside, np.float32(0)))
        middle -= shift_of_row(np.int32(first), start_u, step_u)
        met = np.floor(middle - half) != np.floor(middle + half)
        inside = (high >= 0) & (low <= ny) & (u[f] + reach >= 0) & (u[f] - reach <= nx)
        stays[f] = inside & (last > first) & (met | (last > first + 1))


@compiled
def _unfold(corners, radius, u, v, batch, steps, room):
    """Lay the corners of fours side by side, and for each face u and v of its ball and its step."""
    for i in range(len(batch)):
        four = np.uint32(batch[i])
        for k in range(9):
            steps[k, i] = corners[four, k]
        step = radius[four] * np.float32(1.0 / STEPS)
        for lane in range(FOUR):
            room[FOUR * i + lane] = u[four]
            room[_FACES + FOUR * i + lane] = v[four]
            room[2 * _FACES + FOUR * i + lane] = step


@compiled
def _corners_may_meet(steps, room, per_mm, to_u, to_v, grid, stays):
    _boxes_may_meet(
        steps, room, _ROUNDED * per_mm, to_u[0], to_u[1], to_u[2], to_v[0], to_v[1], to_v[2],
        grid.start_u, grid.step_u, grid.start_v, grid.step_v, np.float32(grid.nx),
        np.float32(grid.ny), stays,
    )  # fmt: skip


# Rows of one array with fixed offsets: of many arrays the compiler would not make vector
# instructions, as it had to see first whether they overlap.
@compiled(fastmath=FREE_ORDER)
def _boxes_may_meet(
    steps, room, rounded, ux, uy, uz, vx, vy, vz, start_u, step_u, start_v, step_v, nx, ny, stays
):  # fmt: skip
    """Whether a line may stand in the box round each face, seen from above."""
    s, n = steps, _FACES
    for f in range(len(stays)):
        ax, ay, az = np.float32(s[f]), np.float32(s[f + n]), np.float32(s[f + 2 * n])
        bx, by, bz = np.float32(s[f + 3 * n]), np.float32(s[f + 4 * n]), np.float32(s[f + 5 * n])
        cx, cy, cz = np.float32(s[f + 6 * n]), np.float32(s[f + 7 * n]), np.float32(s[f + 8 * n])
        au, av = ux * ax + uy * ay + uz * az, vx * ax + vy * ay + vz * az
        bu, bv = ux * bx + uy * by + uz * bz, vx * bx + vy * by + vz * bz
        cu, cv = ux * cx + uy * cy + uz * cz, vx * cx + vy * cy + vz * cz
        middle_u, middle_v, step = room[f], room[f + n], room[f + 2 * n]
        slack = step * rounded + _SLACK
        left = middle_u + step * min(min(au, bu), cu) - slack
        right = middle_u + step * max(max(au, bu), cu) + slack
        low = middle_v + step * min(min(av, bv), cv) - slack
        high = middle_v + step * max(max(av, bv), cv) + slack
        below, above = np.floor(low), np.floor(high)
        first = below + (low - below >= shift_of_row(np.int32(below), start_v, step_v))
        last = above + (high - above >= shift_of_row(np.int32(above), start_v, step_v))
        shift = shift_of_row(np.int32(first), start_u, step_u)
        met = np.floor(left - shift) != np.floor(right - shift)
        inside = (high >= 0) & (low <= ny) & (right >= 0) & (left <= nx)
        stays[f] = inside & (last > first) & (met | (last > first + 1))
