"""Columns of supports as a few flat-ended blocks whose ends lie hidden inside the part.

What the part takes away from a block does not matter, so a block may end anywhere inside the solid
above or below it. Ends are therefore put on common heights, and cells with the same two ends make
one block. At the rim of a support, where a block could stand up beside the part, it ends at the
underside itself.
"""

import numpy as np

from viewer.geometry.carve_solids import Block
from viewer.geometry.column_field import ColumnField
from viewer.geometry.column_grid import ColumnGrid
from viewer.geometry.support_walk import StandingSupports

_INTO = 0.6  # share of the solid's thickness that an end may reach into it
_STEP = 2.0  # common heights lie so many cells apart; at rims and in thin sheets this share of it
_FINE = 0.125
_CLEAR_MM = 0.01  # how far inside it an end has to lie


def blocks_of_columns(
    standing: StandingSupports, field: ColumnField, grid: ColumnGrid, platform_mm: float
) -> list[Block]:
    """Blocks that hold all columns, in the grid's own x and y, z above the platform.

    standing : columns on the lines of `field`, one in the middle of each cell of `grid`
    """
    above, below = _thickness(standing, field, platform_mm)
    inner = _is_inner(standing, grid)
    step = _STEP * grid.pitch_mm
    top = _ends(standing.top_mm, above, inner, step)
    bottom = -_ends(-standing.bottom_mm, below, inner, step)
    bottom[standing.bottom_face < 0] = 0.0
    ends = np.column_stack([bottom, top])
    kinds, kind = np.unique(ends, axis=0, return_inverse=True)
    order = np.argsort(kind.ravel(), kind="stable")
    starts = np.searchsorted(kind.ravel()[order], np.arange(len(kinds) + 1))
    row, column = np.divmod(standing.line, grid.nx)
    blocks = []
    for k, (low, high) in enumerate(kinds.tolist()):
        own = order[starts[k] : starts[k + 1]]
        blocks.append(Block(low, high, _rectangles(row[own], column[own], grid)))
    return [block for block in blocks if block.top_mm > block.bottom_mm]


def _thickness(standing, field, platform_mm) -> tuple[np.ndarray, np.ndarray]:
    """(s,) how thick the solid is above the top and below the bottom of each column."""
    lines = np.repeat(np.arange(len(field.starts) - 1), np.diff(field.starts))
    sign = np.where(field.side & 1, -1, 1)
    total = np.cumsum(sign)
    before = np.concatenate([[0], total])[field.starts[:-1]]
    winding = total - before[lines]
    starts = np.flatnonzero((winding == 1) & (sign == 1))
    ends = np.flatnonzero((winding == 0) & (sign == -1))
    height = field.z_mm - platform_mm
    low, span = height.min(initial=0.0) - 1.0, np.ptp(height) + 4.0 if len(height) else 1.0

    def key(line, z):  # rises with the line, and on a line with the height
        return line * span + (z - low)

    hair = 1e-6
    after = np.searchsorted(
        key(lines[ends], height[ends]), key(standing.line, standing.top_mm + hair)
    )
    until = np.searchsorted(
        key(lines[starts], height[starts]), key(standing.line, standing.bottom_mm - hair)
    )
    above = height[ends[np.minimum(after, len(ends) - 1)]] - standing.top_mm
    below = standing.bottom_mm - height[starts[np.maximum(until - 1, 0)]]
    return np.maximum(above, 0.0), np.maximum(below, 0.0)


def _is_inner(standing, grid) -> np.ndarray:
    """(s,) whether all four cells beside have a column whose top is about as high."""
    row, column = np.divmod(standing.line, grid.nx)
    near_mm = 3.0 * grid.pitch_mm
    inner = np.ones(len(standing.line), bool)
    order = np.lexsort((standing.top_mm, standing.line))
    span = float(np.ptp(standing.top_mm)) + 4.0 * near_mm if len(order) else 1.0
    low = float(standing.top_mm.min(initial=0.0)) - 2.0 * near_mm
    keys = standing.line[order] * span + (standing.top_mm[order] - low)
    for over, across in ((-1, 0), (1, 0), (0, -1), (0, 1)):
        r, c = row + over, column + across
        there = (r >= 0) & (r < grid.ny) & (c >= 0) & (c < grid.nx)
        at = (r * grid.nx + c) * span + (standing.top_mm - low)
        first = np.searchsorted(keys, at - near_mm)
        last = np.searchsorted(keys, at + near_mm, side="right")
        inner &= there & (last > first)
    return inner


def _ends(at_mm, thickness_mm, inner, step_mm) -> np.ndarray:
    """Heights at or above `at_mm`, inside the solid there; for those not inner just below it."""
    level = np.ceil((at_mm + _CLEAR_MM) / step_mm) * step_mm
    most = at_mm + _INTO * thickness_mm
    fine = _FINE * step_mm
    middle = np.round((at_mm + 0.5 * thickness_mm) / fine) * fine
    middle = np.where((middle > at_mm) & (middle < most), middle, at_mm + 0.5 * thickness_mm)
    inside = np.where(level <= most, level, middle)
    rim = np.floor((at_mm + 1e-6) / fine) * fine
    return np.where(inner, inside, rim)


def _rectangles(row, column, grid) -> np.ndarray:
    """(r, 4) x0, y0, x1, y1 of cells, those of a row side by side as one."""
    order = np.lexsort((column, row))
    row, column = row[order], column[order]
    new = np.ones(len(row), bool)
    new[1:] = (row[1:] != row[:-1]) | (column[1:] != column[:-1] + 1)
    first = np.flatnonzero(new)
    last = np.append(first[1:], len(row)) - 1
    x0, x1 = column[first], column[last] + 1
    y0 = row[first]
    cells = np.column_stack([x0, y0, x1, y0 + 1]).astype(np.float64) * grid.pitch_mm
    return cells + np.array([grid.x0_mm, grid.y0_mm, grid.x0_mm, grid.y0_mm])
