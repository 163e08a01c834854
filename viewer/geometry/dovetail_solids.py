"""Tail and slot of a dovetail by manifold3d, which holds the interpreter lock.

Everything is in a frame whose z axis is the normal of the cut, the cut at z = 0 exactly, so that
what touches there melts together. Apart from the arrays nothing is imported here, so that a process
of its own is ready quickly.
"""

from typing import NamedTuple

import manifold3d
import numpy as np

from viewer.own_process import run_in_own_process
from viewer.progress import Progress

FEW_FACES = 20_000  # joined in some 100 ms, for which no process is started
BELOW_MM = 1.0  # by which tools reach below the cut, where they meet nothing


class Tail(NamedTuple):
    """A dovetail along a line of the cut.

    middle_mm : (2,) a point of the line; along : (2,) its direction, towards the open end
    blind_mm, open_mm : where it ends, along the line from `middle_mm`
    width_mm : at its foot; height_mm; flare_deg : of its flanks from upright
    gap_mm : by which the slot is wider all round and deeper
    """

    middle_mm: np.ndarray
    along: np.ndarray
    blind_mm: float
    open_mm: float
    width_mm: float
    height_mm: float
    flare_deg: float
    gap_mm: float

    def outline_mm(self, gap_mm: float) -> np.ndarray:
        """(6, 2) profile across it, grown by a gap, from below the cut up; anticlockwise."""
        slope = np.tan(np.radians(self.flare_deg))
        more = gap_mm / np.cos(np.radians(self.flare_deg))
        foot = 0.5 * self.width_mm + more
        top = self.height_mm + gap_mm
        wide = foot + top * slope
        return np.array(
            [(-foot, -BELOW_MM), (foot, -BELOW_MM), (foot, 0), (wide, top), (-wide, top),
             (-foot, 0)]
        )  # fmt: skip


class Surface(NamedTuple):
    """points_mm : (n, 3) float64; faces : (m, 3) int64; origin : (m,) int32 places of the faces
    they are pieces of: in the lower piece from 0, in the upper one after those, −1 for new ones
    """

    points_mm: np.ndarray
    faces: np.ndarray
    origin: np.ndarray


def join(
    below: Surface, above: Surface, tail: Tail, progress: Progress | None = None
) -> tuple[Surface, Surface] | None:
    """The lower piece with the tail, the upper one with the slot; None if one is no clean solid.

    Raises Cancelled; ShowsideError when the process dies.
    """
    if len(below.faces) + len(above.faces) <= FEW_FACES:
        return join_here(below, above, tail)
    return run_in_own_process(join_here, below, above, tail, progress=progress)


def join_here(
    below: Surface, above: Surface, tail: Tail, progress: Progress | None = None
) -> tuple[Surface, Surface] | None:
    """The same in this process."""
    lower, upper = _solid(below), _solid(above)
    if any(s.status() != manifold3d.Error.NoError or s.is_empty() for s in (lower, upper)):
        return None
    first = len(below.faces) + len(above.faces)
    key = _tool(tail, 0.0, first) ^ upper
    slot = _tool(tail, tail.gap_mm, first)
    return _surface(lower + key, first), _surface(upper - slot, first)


def _solid(piece: Surface) -> manifold3d.Manifold:
    return manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=np.array(piece.points_mm, np.float64),
            tri_verts=np.asarray(piece.faces, np.uint64).copy(),
            face_id=np.asarray(piece.origin, np.uint64).copy(),
        )
    )


def _tool(tail: Tail, gap_mm: float, first_id: int) -> manifold3d.Manifold:
    """The profile drawn out along the line; each of its faces has a number from `first_id` on."""
    profile = manifold3d.CrossSection([tail.outline_mm(gap_mm)])
    low, high = tail.blind_mm - gap_mm, tail.open_mm
    mesh = profile.extrude(high - low).to_mesh64()
    x, y, z = np.array(mesh.vert_properties)[:, :3].T
    across = np.array([-tail.along[1], tail.along[0]])
    plan = tail.middle_mm + np.outer(z + low, tail.along) + np.outer(x, across)
    return _solid(
        Surface(
            np.column_stack([plan, y]),
            np.array(mesh.tri_verts, np.int64),
            np.arange(first_id, first_id + len(mesh.tri_verts)),
        )
    )


def _surface(solid: manifold3d.Manifold, first_id: int) -> Surface:
    mesh = solid.to_mesh64()
    ids = np.asarray(mesh.face_id, np.int64)
    return Surface(
        np.array(mesh.vert_properties)[:, :3].copy(),
        np.array(mesh.tri_verts, np.int64),
        np.where(ids >= first_id, -1, ids).astype(np.int32),
    )
