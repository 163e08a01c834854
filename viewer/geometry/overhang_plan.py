"""Overhangs seen from above: the box around them, and those large enough to be looked at alone."""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_blocks import BLOCK
from viewer.geometry.overhang import OVERHANG, Undersides
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.turned_part import TurnedPart

_BITS = np.uint64(0x0101010101010101 * OVERHANG)
_MANY_FACES = 50_000  # of so many the balls round blocks are small enough to stand for the faces


def box_of_overhangs(
    part: PreparedPart, turned: TurnedPart, undersides: Undersides, many: int | None = None
) -> tuple[np.ndarray, np.ndarray]:
    """(2,) and (2,) float64: a box in plan, in the frame of `turned`, around all that overhangs.

    The least one for a part of few faces; of `many` faces, one that holds their blocks.
    """
    if len(part.faces) < (_MANY_FACES if many is None else many):
        box = _box_of_faces(undersides.kinds, part.faces, turned.points_mm)
    else:
        box = _box_of_blocks(undersides.kinds, part.blocks, turned.rotation)
    return box[0], box[1]


def large_overhangs(
    undersides: Undersides, face_classes: np.ndarray, least_mm2: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Overhanging faces of a plan area of at least `least_mm2`, and what the others add up to.

    face_classes : (m,) uint8
    returns (u,) int32 rising, (u,) float64 their plan areas, (3,) float64 the others' by class
    """
    part = undersides.part
    large, plan = _large(
        undersides.kinds, part.rows, part.blocks.largest_mm2,
        *undersides.up.astype(np.float32), least_mm2,
    )  # fmt: skip
    small = undersides.overhang_plan_mm2 - np.bincount(face_classes[large], plan, 3)
    # Sums of single precision leave a rest of a few parts in ten million where nothing is left.
    small[small < 1e-6 * undersides.overhang_plan_mm2] = 0.0
    return large, plan, small


@compiled
def _box_of_faces(kinds, faces, points):
    box = np.array([[np.inf, np.inf], [-np.inf, -np.inf]])
    for f in range(len(kinds)):
        if kinds[f] != OVERHANG:
            continue
        for k in range(3):
            for axis in range(2):
                x = points[faces[f, k], axis]
                box[0, axis], box[1, axis] = min(box[0, axis], x), max(box[1, axis], x)
    return box


@compiled
def _box_of_blocks(kinds, blocks, rotation):
    box = np.array([[np.inf, np.inf], [-np.inf, -np.inf]])
    # The kinds of a block, 16 bytes, are two numbers of 64 bits: most blocks go in one look.
    whole = len(kinds) // BLOCK
    pairs = kinds[: BLOCK * whole].view(np.uint64).reshape(whole, 2)
    for i in range(len(blocks.radii_mm)):
        if i < len(pairs) and (pairs[i, 0] | pairs[i, 1]) & _BITS == 0:
            continue
        overhangs = 0
        for f in range(BLOCK * i, min(BLOCK * (i + 1), len(kinds))):
            overhangs += kinds[f] == OVERHANG
        if overhangs == 0:
            continue
        p, radius = blocks.centres_mm[i], blocks.radii_mm[i]
        for axis in range(2):
            turn = rotation[axis]
            x = turn[0] * p[0] + turn[1] * p[1] + turn[2] * p[2]
            box[0, axis] = min(box[0, axis], x - radius)
            box[1, axis] = max(box[1, axis], x + radius)
    return box


@compiled
def _large(kinds, rows, largest, up_x, up_y, up_z, least):
    faces, plans = np.empty(len(kinds), np.int32), np.empty(len(kinds))
    count = 0
    for i in range(len(largest)):
        if largest[i] < least:
            continue
        for f in range(BLOCK * i, min(BLOCK * (i + 1), len(kinds))):
            if kinds[f] != OVERHANG:
                continue
            n_z = rows.x[f] * up_x + rows.y[f] * up_y + rows.z[f] * up_z
            plan = np.float64(rows.exposed_mm2[f]) * abs(np.float64(n_z))
            if plan >= least:
                faces[count], plans[count] = f, plan
                count += 1
    return faces[:count].copy(), plans[:count].copy()
