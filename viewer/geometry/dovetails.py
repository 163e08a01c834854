"""Dovetails: a tail on one cut face slides into a slot of the other, with a gap for glue.

The slot is open at one end only, where the surface is not of class A, so that nothing that shows
is cut; of all lines across the cut face the longest that leaves its walls is taken.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.closed_part import edges_join
from viewer.geometry.cut_pieces import CutPlane, Piece
from viewer.geometry.dovetail_solids import Surface, Tail, join
from viewer.geometry.face_classes import CLASS_A
from viewer.geometry.mesh import Mesh
from viewer.geometry.nearest_face import nearest_in_tree
from viewer.geometry.plane_cut import axes_across
from viewer.geometry.ray_tree import build_ray_tree
from viewer.geometry.registration_pins import between, inside_outline, partners, rim_of
from viewer.progress import Progress
from viewer.words import say

FLARE_DEG = 15.0  # of the flanks from upright, as in woodwork about one in four; no source
_WAYS = 12  # directions across the cut face
_LINES, _STEPS = 15, 60  # lines across each direction, places along each
_LEAST_LONG = 1.5  # times its width: shorter tails hold nothing
_MOST_TRIED = 4


@dataclass(frozen=True)
class DovetailSizes:
    """Width at the foot, height and walls of a dovetail; lengths from common practice, no source.

    gap_mm : by which the slot is wider all round and deeper
    """

    width_mm: float = 6.0
    gap_mm: float = 0.15
    wall_mm: float = 1.5

    def __post_init__(self) -> None:
        if not (1.0 <= self.width_mm <= 100 and 0 <= self.gap_mm <= 2 and 0 <= self.wall_mm <= 20):
            raise RequestProblem(
                say("Dovetails are 1 to 100 mm wide, with a glue gap of 0 to 2 mm.")
            )

    @property
    def height_mm(self) -> float:
        """Half as high as wide."""
        return 0.5 * self.width_mm

    @property
    def reach_mm(self) -> float:
        """Half the width of the slot where it is widest."""
        slope = np.tan(np.radians(FLARE_DEG))
        more = self.gap_mm / np.cos(np.radians(FLARE_DEG))
        return 0.5 * self.width_mm + more + (self.height_mm + self.gap_mm) * float(slope)


class Dovetailed(NamedTuple):
    """Two pieces with tail and slot; length_mm : of the tail, 0 and why where there is none."""

    below: Piece
    above: Piece
    length_mm: float
    sentence: str


class _Place(NamedTuple):
    long_mm: float
    middle: np.ndarray
    along: np.ndarray
    blind_mm: float
    inner_mm: float
    mouth_mm: float


def dovetail_pieces(
    pieces: tuple[Piece, ...],
    planes: list[CutPlane],
    face_classes: np.ndarray,
    sizes: DovetailSizes | None = None,
    progress: Progress | None = None,
) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
    """All pieces with a dovetail across each cut face that two of them share, and sentences."""
    made, sentences = list(pieces), []
    for number, plane in enumerate(planes):
        for i, j in partners(made, number):
            found = add_dovetail(made[i], made[j], number, plane, face_classes, sizes, progress)
            made[i], made[j] = found.below, found.above
            if found.sentence:
                sentences.append(between(i, j, found.sentence))
    return tuple(made), tuple(sentences)


def add_dovetail(
    below: Piece,
    above: Piece,
    number: int,
    plane: CutPlane,
    face_classes: np.ndarray,
    sizes: DovetailSizes | None = None,
    progress: Progress | None = None,
) -> Dovetailed:
    """A tail on the lower piece and a slot in the upper one, on the face that cut `number` made.

    face_classes : (faces of the part,) uint8. Both pieces must have that face whole. Raises
    Cancelled.
    """
    sizes, progress = sizes or DovetailSizes(), progress or Progress()
    if not (edges_join(below.mesh) and edges_join(above.mesh)):
        return Dovetailed(below, above, 0.0, say("they are open, so the cut face stays flat."))
    frame = np.vstack([axes_across(np.asarray(plane.normal)), plane.normal])
    cap = below.mesh.faces[below.origin_face == -1 - number]
    if not len(cap):
        return Dovetailed(below, above, 0.0, say("no cut face lies between them."))
    base_mm = float(np.mean(below.mesh.vertices_mm[cap.ravel()] @ frame[2]))
    turned = [_turned(piece, number, frame, base_mm) for piece in (below, above)]
    outline = turned[0].points_mm[rim_of(cap)][:, :, :2]
    places = _places(outline, sizes, progress)
    if not places:
        return Dovetailed(below, above, 0.0, say("the cut face has no room for a dovetail."))
    shows = above.classes(face_classes) == CLASS_A
    for place in _sound_places(places, above, number, turned[1], shows, sizes, progress):
        tail = Tail(place.middle, place.along, place.blind_mm, place.mouth_mm + sizes.reach_mm,
                    sizes.width_mm, sizes.height_mm, FLARE_DEG, sizes.gap_mm)  # fmt: skip
        lower = turned[0]._replace(origin=np.arange(len(turned[0].faces)))
        upper = turned[1]._replace(origin=len(lower.faces) + np.arange(len(turned[1].faces)))
        joined = join(lower, upper, tail, progress)
        progress.check()
        if joined is None:
            return Dovetailed(below, above, 0.0, say("they are no clean solids for a dovetail."))
        made = [_piece(surface, below, above, number, frame, base_mm) for surface in joined]
        if _kept(made, below, above, face_classes):
            lower, upper = (Piece(m.mesh, m.origin_face, p.sides)
                            for m, p in zip(made, (below, above), strict=True))  # fmt: skip
            return Dovetailed(lower, upper, place.mouth_mm - place.blind_mm, "")
    return Dovetailed(
        below, above, 0.0, say("a dovetail would open into class A or leave thin walls; use pins.")
    )


def _turned(piece: Piece, number: int, frame: np.ndarray, base_mm: float) -> Surface:
    """A piece in the frame of the cut, its cut face at 0 exactly."""
    points = piece.mesh.vertices_mm @ frame.T
    points[:, 2] -= base_mm
    points[np.unique(piece.mesh.faces[piece.origin_face == -1 - number]), 2] = 0.0
    return Surface(points, piece.mesh.faces.astype(np.int64), piece.origin_face)


def _places(outline: np.ndarray, sizes: DovetailSizes, progress: Progress) -> list[_Place]:
    """Lines across the cut face that leave walls all along, the longest first."""
    corners = outline.reshape(-1, 2)
    clear = sizes.reach_mm + sizes.wall_mm
    found: list[_Place] = []
    for turn in np.pi * np.arange(_WAYS) / _WAYS:
        along = np.array([np.cos(turn), np.sin(turn)])
        across = np.array([-along[1], along[0]])
        low, high = (corners @ along).min(), (corners @ along).max()
        left, right = (corners @ across).min(), (corners @ across).max()
        at = np.linspace(low, high, _STEPS)
        lines = np.linspace(left, right, _LINES + 2)[1:-1]
        points = lines[:, None, None] * across + at[None, :, None] * along
        inside, away = inside_outline(points.reshape(-1, 2), outline, progress)
        inside, away = inside.reshape(points.shape[:2]), away.reshape(points.shape[:2])
        for line, offset in enumerate(lines):
            for way in (1, -1):
                run = _run(at * way, inside[line], away[line], clear, way)
                if run is not None:
                    found.append(_place(run, offset * across, along * way, sizes))
    kept = [p for p in found if p.long_mm >= _LEAST_LONG * sizes.width_mm]
    # A mouth that runs slantingly through a wall is worth less than a shorter tail.
    return sorted(kept, key=lambda p: 4.0 * (p.mouth_mm - p.inner_mm) - p.long_mm)


def _run(at, inside, away, clear_mm, way) -> tuple[float, float, float] | None:
    """From the blind end to the last place with walls on both sides, and where it comes out."""
    order = np.argsort(at)
    at, inside, away = at[order], inside[order], away[order]
    good = inside & (away >= clear_mm)
    if not good.any():
        return None
    last = int(np.flatnonzero(good)[-1])
    first = last
    while first > 0 and good[first - 1]:
        first -= 1
    out = last
    while out + 1 < len(at) and inside[out]:
        out += 1
    mouth = float(at[out]) if not inside[out] else float(at[-1])
    if mouth - at[last] > 2.0 * clear_mm + 2.0 * (at[1] - at[0]):
        return None  # it comes out too slantingly
    return float(at[first]), float(at[last]), mouth


def _place(run, middle, along, sizes) -> _Place:
    blind, inner, mouth = run
    return _Place(inner - blind, middle, along, blind, inner, mouth)


def _sound_places(places, above, number, turned, shows, sizes, progress) -> list[_Place]:
    """Of the longest places those whose slot stays away from the surface and out of class A."""
    others = above.origin_face != -1 - number
    faces = turned.faces[others].astype(np.int32)
    tree = build_ray_tree(turned.points_mm, faces)
    shows = shows[others]
    kept: list[_Place] = []
    for place in places[: 12 * _MOST_TRIED]:
        if len(kept) == _MOST_TRIED:
            break
        at = np.linspace(place.blind_mm, place.inner_mm, 8)
        heights = (0.5 * sizes.height_mm, sizes.height_mm + sizes.gap_mm)
        deep = _samples(place, at, heights, sizes)
        if nearest_in_tree(tree, deep, progress).distances_mm.min() < 0.8 * sizes.wall_mm:
            continue
        at = np.linspace(place.inner_mm, place.mouth_mm + sizes.reach_mm, 12)
        mouth = nearest_in_tree(tree, _samples(place, at, (0.0, *heights), sizes), progress)
        if not shows[mouth.faces[mouth.distances_mm < sizes.reach_mm]].any():
            kept.append(place)
    return kept


def _samples(place, at, heights, sizes) -> np.ndarray:
    """(k, 3) points on both flanks and the middle of a slot."""
    across = np.array([-place.along[1], place.along[0]])
    rows = [
        np.column_stack([
            place.middle + np.outer(at, place.along) + side * sizes.reach_mm * across,
            np.full(len(at), height),
        ])
        for side in (-1, 0, 1) for height in heights
    ]  # fmt: skip
    return np.ascontiguousarray(np.concatenate(rows))


class _Made(NamedTuple):
    mesh: Mesh
    origin_face: np.ndarray


def _piece(surface: Surface, below, above, number, frame, base_mm) -> _Made:
    """A joined surface back in part coordinates; each face knows the face of the part it is of."""
    known = np.concatenate([below.origin_face, above.origin_face, [-1 - number]])
    points = surface.points_mm + np.array([0.0, 0.0, base_mm])
    return _Made(Mesh(points @ frame, surface.faces), known[surface.origin].astype(np.int32))


def _kept(made, below, above, face_classes) -> bool:
    """Whether both are closed and as much of class A is left as there was."""
    if not all(edges_join(each.mesh) for each in made):
        return False
    for each, before in zip(made, (below, above), strict=True):
        piece = Piece(each.mesh, each.origin_face, before.sides)
        areas = [
            float(p.mesh.face_areas_mm2[p.classes(face_classes) == CLASS_A].sum())
            for p in (piece, before)
        ]
        if abs(areas[0] - areas[1]) > 1e-6 * max(areas[1], 1.0):
            return False
    return True
