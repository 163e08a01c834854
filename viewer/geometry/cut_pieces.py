"""Cut a part by planes into closed pieces with flat cut faces; every face keeps its class.

Each plane cuts all pieces there are, so two planes make quarters, two parallel ones a slab between
two rests, and six a box. Pieces stay in part coordinates: laid in the pose of the whole they show
the same terraces and supports.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.closed_part import ClosedPart, edges_join
from viewer.geometry.face_classes import UNMARKED
from viewer.geometry.known_of_mesh import shells_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.plane_cut import Half, cut_by_plane
from viewer.geometry.pose import Pose
from viewer.progress import Progress
from viewer.words import say

# Where a cut leaves an edge with more than two faces (a ridge that only just reaches the plane),
# it is tried again so many of the part's size away.
_NUDGES = (0.0, 4e-7, -4e-7, 2e-6, -2e-6)


@dataclass(frozen=True)
class CutPlane:
    """A plane in part coordinates; `normal` is made a unit vector and points to its upper side."""

    point_mm: tuple[float, float, float]
    normal: tuple[float, float, float]

    def __post_init__(self) -> None:
        point, normal = (np.asarray(each, np.float64) for each in (self.point_mm, self.normal))
        size = float(np.linalg.norm(normal)) if normal.shape == (3,) else 0.0
        if not (1e-12 < size < np.inf) or point.shape != (3,) or not np.isfinite(point).all():
            raise RequestProblem(
                say("A plane needs a point and a direction that is not zero, such as 0,0,10,0,0,1.")
            )
        object.__setattr__(self, "point_mm", tuple(float(x) for x in point))
        object.__setattr__(self, "normal", tuple(float(x) for x in normal / size))


@dataclass(frozen=True, eq=False)
class Piece:
    """One piece in part coordinates.

    mesh : closed, outward
    origin_face : (m,) int32, face of the part that each face is (a piece of), −1 − k for the cut
        face that plane number k has made
    sides : for each plane 1 above it, −1 below it, 0 where it did not cut this piece
    """

    mesh: Mesh
    origin_face: np.ndarray
    sides: tuple[int, ...]

    @property
    def volume_mm3(self) -> float:
        """What it encloses."""
        return self.mesh.signed_volume_mm3

    @property
    def cut_area_mm2(self) -> float:
        """Area of its cut faces."""
        return float(self.mesh.face_areas_mm2[self.origin_face < 0].sum())

    def classes(self, face_classes: np.ndarray) -> np.ndarray:
        """(m,) uint8: the classes of the part ((faces,) uint8) carried over; cut faces unmarked."""
        cut = self.origin_face < 0
        carried = np.asarray(face_classes, np.uint8)[np.where(cut, 0, self.origin_face)]
        return np.where(cut, np.uint8(UNMARKED), carried)


@dataclass(frozen=True, eq=False)
class Pieces:
    """What comes of cutting: the pieces, and sentences about what had to be done for it."""

    pieces: tuple[Piece, ...]
    notes: tuple[str, ...]


def cut_pieces(
    part: ClosedPart, planes: Sequence[CutPlane], progress: Progress | None = None
) -> Pieces:
    """The pieces that the planes cut a part into; their volumes add up to the part's.

    Raises RequestProblem for a plane that meets no piece, Cancelled.
    """
    progress = progress or Progress()
    pieces = [Piece(part.mesh, part.origin_face, ())]
    notes = [part.sentence] if part.sentence else []
    for number, plane in enumerate(planes):
        progress.report(number / len(planes), "Cutting")
        made, crowded = [], False
        for piece in pieces:
            halves, ridge = _cut(piece, plane, number, part.closed)
            made += halves
            crowded |= ridge
            progress.check()
        if len(made) == len(pieces):
            raise RequestProblem(
                say(
                    "Plane {number} does not meet the part; move it, or leave it out.",
                    number=number + 1,
                )
            )
        if crowded:
            notes.append(_crowded(number))
        pieces = made
    return Pieces(tuple(pieces), tuple(notes))


def _crowded(number: int) -> str:
    return say("Two faces of a piece touch along an edge of cut {number}.", number=number + 1)


def cut_out(
    part: ClosedPart, planes: Sequence[CutPlane], progress: Progress | None = None
) -> Pieces:
    """The one piece below all planes (a box looks outward with six of them), the rest left aside.

    Raises RequestProblem where nothing lies there, Cancelled.
    """
    progress = progress or Progress()
    piece = Piece(part.mesh, part.origin_face, ())
    notes = [part.sentence] if part.sentence else []
    for number, plane in enumerate(planes):
        progress.report(number / len(planes), "Cutting")
        halves, crowded = _cut(piece, plane, number, part.closed)
        inside = [half for half in halves if half.sides[-1] < 0]
        if not inside and not _lies_below(piece, plane):
            raise RequestProblem(say("Nothing of the part lies there; move the box onto the part."))
        piece = inside[0] if inside else halves[0]
        if crowded:
            notes.append(_crowded(number))
        progress.check()
    return Pieces((piece,), tuple(notes))


def box_planes(low_mm: np.ndarray, high_mm: np.ndarray, axes: np.ndarray) -> list[CutPlane]:
    """The six outward planes of a box.

    low_mm, high_mm : (3,) float64, its corners along the axes
    axes : (3, 3) float64, a unit vector of the part in each row
    """
    planes = []
    for axis in range(3):
        for sign, at_mm in ((-1.0, low_mm[axis]), (1.0, high_mm[axis])):
            planes.append(CutPlane(tuple(at_mm * axes[axis]), tuple(sign * axes[axis])))
    return planes


def largest_body(piece: Piece) -> Piece:
    """The piece with its largest body only, where a cut left several that do not hang together."""
    shells = shells_of(piece.mesh)
    if shells.count < 2:
        return piece
    volumes = _shell_volumes_mm3(piece.mesh, shells.shell_of_face, shells.count)
    return piece_of_faces(piece, shells.shell_of_face == int(volumes.argmax()))


def bodies(piece: Piece) -> int:
    """How many bodies of a piece do not hang together; hollows in them do not count."""
    shells = shells_of(piece.mesh)
    return int((_shell_volumes_mm3(piece.mesh, shells.shell_of_face, shells.count) > 0).sum())


def piece_of_faces(piece: Piece, kept: np.ndarray) -> Piece:
    """The piece with some of its faces only ((m,) bool), whole bodies of it."""
    faces = piece.mesh.faces[kept]
    used = np.zeros(len(piece.mesh.vertices_mm), bool)
    used[faces] = True
    number = np.cumsum(used, dtype=np.int32) - 1
    mesh = Mesh(piece.mesh.vertices_mm[used], number[faces])
    return Piece(mesh, piece.origin_face[kept], piece.sides)


def pose_on_cut_face(piece: Piece) -> Pose | None:
    """The pose in which a piece stands on its largest cut face; None if it has none."""
    cuts = np.unique(piece.origin_face[piece.origin_face < 0])
    if not len(cuts):
        return None
    areas = [piece.mesh.face_areas_mm2[piece.origin_face == cut].sum() for cut in cuts]
    largest = piece.origin_face == cuts[int(np.argmax(areas))]
    outward = (piece.mesh.face_normals * piece.mesh.face_areas_mm2[:, None])[largest].sum(axis=0)
    return Pose(tuple((-outward).tolist()))


def _shell_volumes_mm3(mesh: Mesh, shell_of_face: np.ndarray, count: int) -> np.ndarray:
    a, b, c = (mesh.vertices_mm[mesh.faces[:, k]] - mesh.box_mm.mean(axis=0) for k in range(3))
    return np.bincount(shell_of_face, np.einsum("ij,ij->i", a, np.cross(b, c)) / 6.0, count)


def _lies_below(piece: Piece, plane: CutPlane) -> bool:
    heights = (piece.mesh.vertices_mm - np.asarray(plane.point_mm)) @ np.asarray(plane.normal)
    return bool(heights.max(initial=0.0) <= -heights.min(initial=0.0))


def _cut(piece: Piece, plane: CutPlane, number: int, closed: bool) -> tuple[list[Piece], bool]:
    """The piece or its halves, below first; whether two faces touch along an edge of the cut."""
    point, normal = np.asarray(plane.point_mm), np.asarray(plane.normal)
    size_mm = float(np.ptp(piece.mesh.box_mm, axis=0).max())
    tries = [(nudge, weld) for nudge in _NUDGES for weld in (True, False)]
    first = None
    for nudge, weld in tries:
        halves = cut_by_plane(piece.mesh, point + nudge * size_mm * normal, normal, weld)
        if halves[0] is None or halves[1] is None:
            if first is None:
                return [Piece(piece.mesh, piece.origin_face, (*piece.sides, 0))], False
            continue
        first = first or halves
        if not closed or all(edges_join(half.mesh) for half in halves):
            return _pieces(piece, halves, number), False
    return _pieces(piece, first, number), True


def _pieces(piece: Piece, halves: tuple[Half, Half], number: int) -> list[Piece]:
    made = []
    for half, side in zip(halves, (-1, 1), strict=True):
        origin = np.where(half.origin < 0, -1 - number, piece.origin_face[half.origin])
        made.append(Piece(half.mesh, origin.astype(np.int32), (*piece.sides, side)))
    return made
