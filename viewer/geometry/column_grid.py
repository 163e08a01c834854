"""Where upright lines stand: in rows, each with shifts of its own, or at cell centres."""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled

# Odd numbers near 2¹⁶ times the golden and the plastic number's inverse. The fractions of a·j² for
# such a number follow one another much as random ones do (Rudnick & Sarnak 1998, "The pair
# correlation function of fractional parts of polynomials", Comm. Math. Phys. 194; MEM), yet can be
# worked out for eight rows at a time.
_STEP_U, _STEP_V = 40503, 49471
WHOLE = 65536


class ColumnGrid(NamedTuple):
    """Where the upright lines stand; `u = (x − x0) / pitch`, `v = (y − y0) / pitch`.

    Row j lies at v = j + shift_v[j] and its line i at u = i + shift_u[j]; the shifts are
    `shift_of_row` of the start and the step.
    """

    x0_mm: float
    y0_mm: float
    pitch_mm: float
    nx: int
    ny: int
    start_u: int
    step_u: int
    start_v: int
    step_v: int
    shift_u: np.ndarray  # (ny,) float64, 0 <= shift < 1
    shift_v: np.ndarray  # (ny,) float64, 0 <= shift < 1


@compiled
def shift_of_row(row, start, step):
    """The shift of a row, 0 <= shift < 1, in whole parts of 2¹⁶: exact in single precision too."""
    # Each product is cut to 32 bits, of which the lower 16 count: there are vector instructions for
    # these, not for 64.
    square = np.int32(np.int32(row) * np.int32(row))
    parts = np.int32(np.int32(square * np.int32(step)) + np.int32(start)) & np.int32(WHOLE - 1)
    return np.float32(np.int32(parts)) * np.float32(1.0 / WHOLE)


def even_grid(
    x0_mm: float, y0_mm: float, pitch_mm: float, nx: int, ny: int, shift: float = 0.5
) -> ColumnGrid:
    """A grid of nx · ny lines with the same shift for all rows, a multiple of 2⁻¹⁶ below 1."""
    return _grid(x0_mm, y0_mm, pitch_mm, nx, ny, int(shift * WHOLE), 0, int(shift * WHOLE), 0)


def grid_over(low_mm, high_mm, cells: int, jitter: np.random.Generator | None) -> ColumnGrid:
    """A grid with `cells` lines along the longer side of the box from `low_mm` to `high_mm`.

    low_mm, high_mm : (2,) float64
    jitter : each row gets shifts of its own, from a random start; without it, lines stand at the
        cell centres
    """
    low, high = np.asarray(low_mm, np.float64)[:2], np.asarray(high_mm, np.float64)[:2]
    size = np.maximum(high - low, 1e-6)
    pitch = float(size.max() / cells)
    nx, ny = (int(n) for n in np.maximum(np.ceil(size / pitch - 1e-9), 1))
    x0, y0 = (float(x) for x in 0.5 * (low + high - pitch * np.array([nx, ny])))
    if jitter is None:
        return even_grid(x0, y0, pitch, nx, ny)
    start_u, start_v = (int(x) for x in jitter.integers(0, WHOLE, 2))
    return _grid(x0, y0, pitch, nx, ny, start_u, _STEP_U, start_v, _STEP_V)


def _grid(x0, y0, pitch, nx, ny, start_u, step_u, start_v, step_v) -> ColumnGrid:
    shift_u, shift_v = _shifts(ny, start_u, step_u), _shifts(ny, start_v, step_v)
    return ColumnGrid(x0, y0, pitch, nx, ny, start_u, step_u, start_v, step_v, shift_u, shift_v)


@compiled
def _shifts(rows, start, step):
    shifts = np.empty(rows)
    for j in range(rows):
        shifts[j] = shift_of_row(j, start, step)
    return shifts
