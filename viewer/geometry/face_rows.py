"""How faces lie and how large they are, one row of numbers for each quantity.

A pass over all faces reads nothing else than these rows from end to end, which is what lets the
processor work on eight faces at a time; `PreparedPart.normals` serves those who ask face by face.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.mesh import frozen

BLOCK = 2048  # faces looked at in one go; they stay in the nearest cache

# Free order of additions is what vector instructions need; single precision lasts for one block.
FREE_ORDER = {"reassoc", "contract", "nsz", "nnan"}


class FaceRows(NamedTuple):
    """Of m faces.

    x, y, z : (m,) float32, unit outward normal; zero where a face has no area
    exposed_mm2 : (m,) float32, area that lies on the surface of the union of shells
    """

    x: np.ndarray
    y: np.ndarray
    z: np.ndarray
    exposed_mm2: np.ndarray


def face_rows(normals: np.ndarray, exposed_mm2: np.ndarray) -> FaceRows:
    """Rows of (m, 3) normals and (m,) areas."""
    x, y, z = (frozen(np.asarray(normals[:, axis], np.float32)) for axis in range(3))
    return FaceRows(x, y, z, frozen(np.asarray(exposed_mm2, np.float32)))


def n_z_of_all(rows: FaceRows, up: np.ndarray) -> np.ndarray:
    """(m,) float32: normal · build direction ((3,) float64) of every face."""
    n_z = np.empty(len(rows.x), np.float32)
    _fill_n_z(rows, *np.asarray(up, np.float32), n_z)
    return n_z


@compiled
def _fill_n_z(rows, up_x, up_y, up_z, n_z):
    for start in range(0, len(n_z), BLOCK):
        stop = min(start + BLOCK, len(n_z))
        n_z_of_block(rows, start, stop, up_x, up_y, up_z, n_z[start:stop])


@compiled
def n_z_of_face(rows, up, f):
    """Normal · build direction of one face; `up` is (3,) float32."""
    return rows.x[f] * up[0] + rows.y[f] * up[1] + rows.z[f] * up[2]


@compiled(fastmath=FREE_ORDER)
def n_z_of_block(rows, start, stop, up_x, up_y, up_z, n_z):
    """Write normal · build direction of the faces from `start` to `stop` into `n_z`.

    returns the least of them
    """
    least = np.float32(np.inf)
    # Slices from 0 let the compiler use vector instructions, offsets do not.
    x, y, z = rows.x[start:stop], rows.y[start:stop], rows.z[start:stop]
    for f in range(len(n_z)):
        here = x[f] * up_x + y[f] * up_y + z[f] * up_z
        n_z[f] = here
        least = min(least, here)
    return least


@compiled(fastmath=FREE_ORDER)
def areas_by_class(areas, n_z, face_classes):
    """Sums of a block for the classes 0, 1 and 2: of (b,) float32 areas, and of them in plan."""
    zero = np.float32(0)
    of_0, of_1, of_2, plan_0, plan_1, plan_2 = zero, zero, zero, zero, zero, zero
    for f in range(len(areas)):
        # Read before any branch: only then is a branch turned into vector instructions.
        area, slope, number = areas[f], abs(n_z[f]), face_classes[f]
        in_0 = area if number == 0 else zero
        in_1 = area if number == 1 else zero
        in_2 = area if number == 2 else zero
        of_0, of_1, of_2 = of_0 + in_0, of_1 + in_1, of_2 + in_2
        plan_0, plan_1, plan_2 = plan_0 + in_0 * slope, plan_1 + in_1 * slope, plan_2 + in_2 * slope
    return (of_0, of_1, of_2), (plan_0, plan_1, plan_2)
